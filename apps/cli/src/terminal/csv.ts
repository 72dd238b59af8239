/** One CSV cell (RFC 4180). Text that a spreadsheet would run as a formula is guarded; numbers never are. */
export function csvCell(value: string | number | undefined): string {
  if (value === undefined) return '';
  if (typeof value === 'number') return String(value);
  const safe = /^[=+\-@\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

export const csvLine = (cells: readonly (string | number | undefined)[]): string =>
  `${cells.map(csvCell).join(',')}\r\n`;
