/**
 * What stands in a number field: the number (decimal comma allowed, `0x` for hexadecimal), or the text itself where it is none,
 * so that the one validating schema refuses it at its place. Empty is `undefined`.
 */
export function numberOf(text: string): number | string | undefined {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return undefined;
  const value = Number(plain);
  return Number.isFinite(value) ? value : text;
}
