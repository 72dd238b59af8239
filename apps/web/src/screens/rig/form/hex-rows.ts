/** One line of a hexadecimal listing. */
export interface HexRow {
  readonly at: string;
  readonly bytes: string;
  readonly text: string;
}

/** Bytes as lines of sixteen: position, pairs of digits, and the printable characters (a point for the others). */
export function hexRows(hex: string, perRow = 16): HexRow[] {
  const bytes = hex.match(/../g) ?? [];
  return Array.from({ length: Math.ceil(bytes.length / perRow) }, (_, row) => {
    const part = bytes.slice(row * perRow, (row + 1) * perRow);
    const text = part.map((pair) => {
      const code = Number.parseInt(pair, 16);
      return code >= 0x20 && code < 0x7f ? String.fromCharCode(code) : '.';
    });
    return { at: (row * perRow).toString(16).padStart(4, '0'), bytes: part.join(' '), text: text.join('') };
  });
}
