/** Words of a heading without case, accents, signs and doubled blanks: `Rate-of-Force Dev. (0–100 ms)` -> `rate of force dev 0 100 ms`. */
export const plainWords = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/([a-z]{2})([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}%/]+/gu, ' ')
    .trim();
