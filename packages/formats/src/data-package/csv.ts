/**
 * One CSV field: quoted when it holds a comma, a quote or a line break, quotes doubled; also when it is blank-edged.
 *
 * Source: RFC 4180.
 */
export function csvField(text: string): string {
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One CSV record, ended by CRLF. */
export const csvRecord = (fields: readonly string[]): string => `${fields.map(csvField).join(',')}\r\n`;

/** A number as CSV: the shortest decimal that reads back to the same double, -0 kept, missing as empty, infinities as INF. */
export function csvNumber(value: number): string {
  if (Number.isNaN(value)) return '';
  if (Object.is(value, -0)) return '-0';
  if (!Number.isFinite(value)) return value > 0 ? 'INF' : '-INF';
  return String(value);
}

/** The number of a CSV field: NaN for an empty one, undefined for what is no number. */
export function numberOfField(field: string): number | undefined {
  if (field === '') return Number.NaN;
  if (field === 'INF') return Number.POSITIVE_INFINITY;
  if (field === '-INF') return Number.NEGATIVE_INFINITY;
  return /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/.test(field) ? Number(field) : undefined;
}

/**
 * Hands over the records of CSV text one by one; tolerates LF line ends and a missing last one.
 *
 * @returns false when a quote is never closed
 */
export function eachRecord(text: string, use: (record: string[], index: number) => void): boolean {
  let record: string[] = [];
  let index = 0;
  let at = 0;
  while (at < text.length) {
    let field: string;
    if (text[at] === '"') {
      field = '';
      for (at++; ; ) {
        const close = text.indexOf('"', at);
        if (close < 0) return false;
        field += text.slice(at, close);
        at = close + 1;
        if (text[at] !== '"') break;
        field += '"';
        at++;
      }
    } else {
      const start = at;
      while (at < text.length && text[at] !== ',' && text[at] !== '\r' && text[at] !== '\n') at++;
      field = text.slice(start, at);
    }
    record.push(field);
    if (text[at] === ',') {
      at++;
      if (at === text.length) record.push('');
      continue;
    }
    if (text[at] === '\r' && text[at + 1] === '\n') at++;
    at++;
    use(record, index++);
    record = [];
  }
  if (record.length > 0) use(record, index);
  return true;
}

/** All records of CSV text; null for a quote never closed. For small tables. */
export function parseCsv(text: string): string[][] | null {
  const records: string[][] = [];
  return eachRecord(text, (record) => records.push(record)) ? records : null;
}
