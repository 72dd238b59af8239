/** One line of a table as cells, with where it begins; a quoted cell may hold delimiters and line breaks. */
export interface TextRecord {
  /** Cells without quotes, blanks kept. */
  readonly cells: readonly string[];
  /** The line as it stands, without its break. */
  readonly line: string;
  readonly start: number;
}

/**
 * Splits the head of a text into records (RFC 4180, with CR, LF or CRLF).
 *
 * @param text one character a byte, so that `start` counts bytes
 * @param delimiter one character; ' ' splits at runs of blanks, '' not at all
 * @param whole false when the text was cut: the last record is then left out
 */
export function splitRecords(text: string, delimiter: string, whole: boolean): TextRecord[] {
  const records: TextRecord[] = [];
  let at = 0;
  while (at < text.length) {
    const start = at;
    const cells: string[] = [];
    let open = true;
    while (open) {
      if (delimiter === ' ') while (text[at] === ' ' || text[at] === '\t') at++;
      const cell = readCell(text, at, delimiter);
      if (delimiter !== ' ' || cell.end > at || cells.length === 0) cells.push(cell.value);
      at = cell.end;
      const stop = text[at];
      if (at >= text.length || stop === '\n' || stop === '\r') open = false;
      else at++;
    }
    const line = text.slice(start, at);
    if (at >= text.length && !whole) break;
    at += text[at] === '\r' && text[at + 1] === '\n' ? 2 : 1;
    records.push({ cells, line, start });
  }
  return records;
}

function readCell(text: string, from: number, delimiter: string): { value: string; end: number } {
  let at = from;
  if (delimiter !== ' ') while (text[at] === ' ') at++;
  if (text[at] === '"') {
    const quoted = readQuoted(text, at, delimiter);
    if (quoted !== undefined) return quoted;
  }
  at = from;
  for (; at < text.length; at++) {
    const c = text[at];
    if (c === '\n' || c === '\r' || c === delimiter || (delimiter === ' ' && c === '\t')) break;
  }
  return { value: text.slice(from, at), end: at };
}

/** A quoted cell; undefined when the quote never closes before a delimiter or line end: then it is an ordinary character. */
function readQuoted(text: string, quote: number, delimiter: string): { value: string; end: number } | undefined {
  let value = '';
  let at = quote + 1;
  for (;;) {
    const close = text.indexOf('"', at);
    if (close < 0) return undefined;
    value += text.slice(at, close);
    if (text[close + 1] === '"') {
      value += '"';
      at = close + 2;
      continue;
    }
    at = close + 1;
    while (text[at] === ' ' && delimiter !== ' ') at++;
    const c = text[at];
    const ends =
      c === undefined ||
      c === '\n' ||
      c === '\r' ||
      c === delimiter ||
      (delimiter === ' ' && (c === '\t' || c === ' '));
    return ends ? { value, end: at } : undefined;
  }
}
