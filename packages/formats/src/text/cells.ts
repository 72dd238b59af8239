/** What one cell of a text table can be. */
export type CellKind = 'number' | 'missing' | 'empty' | 'clock' | 'text';

const POINT = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const COMMA = /^[+-]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d+)?$/;
const MISSING = /^(?:na|n\/a|nan|null|#n\/a|-|--)$/i;
const CLOCK = /^(?:(\d{4})-(\d\d)-(\d\d)[T ])?(\d{1,3}):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?Z?$/;

/** Kind of a cell without its quotes; blanks around it do not count. */
export function kindOf(cell: string, decimal: '.' | ','): CellKind {
  const text = cell.trim();
  if (text === '') return 'empty';
  const c = text.charCodeAt(0);
  if (
    ((c >= 48 && c <= 57) || c === 43 || c === 45 || c === 46 || c === 44) &&
    (decimal === ',' ? COMMA : POINT).test(text)
  ) {
    return 'number';
  }
  if (MISSING.test(text)) return 'missing';
  return CLOCK.test(text) ? 'clock' : 'text';
}

/** True for a cell that says "no value here". */
export const isMissing = (cell: string): boolean => cell.trim() === '' || MISSING.test(cell.trim());

/**
 * Seconds of a clock-like cell: `h:mm`, `h:mm:ss.fff`, or a date before it (then seconds since 1970, without time zone).
 * Undefined when the cell is none.
 */
export function clockSeconds(cell: string): number | undefined {
  const m = CLOCK.exec(cell.trim());
  if (m === null) return undefined;
  const day = m[1] === undefined ? 0 : Date.UTC(Number(m[1]), Number(m[2]) - 1, Number(m[3])) / 1000;
  return day + Number(m[4]) * 3600 + Number(m[5]) * 60 + Number(`${m[6] ?? '0'}.${m[7] ?? '0'}`);
}
