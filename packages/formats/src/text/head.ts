import type { ByteSource } from '../format.ts';
import type { FormatError } from '../format-error.ts';
import { readFully } from '../read-fully.ts';
import { badOption } from './column-names.ts';
import type { TextDescription, TextTime } from './description.ts';
import { findTable } from './dialect.ts';
import { type FoundEncoding, findEncoding, isWide, wideToUtf8 } from './encoding.ts';
import { textError } from './errors.ts';
import type { TextOptions } from './options.ts';
import { type Recognised, recognise } from './recognise.ts';
import { refuseForeign } from './refuse-foreign.ts';

const FIRST_LOOK = 64 * 1024;
/** A preamble longer than this is no preamble. */
const LAST_LOOK = 4 * 1024 * 1024;
/** Longest line, in bytes. */
export const LONGEST_LINE = 1024 * 1024;

export type HeadResult =
  | { readonly ok: true; readonly found: Recognised; readonly encoding: FoundEncoding; readonly whole: boolean }
  | { readonly ok: false; readonly error: FormatError };

/**
 * Recognises a text from its first 64 kB; looks further (up to 4 MB) only while no data row has come.
 * Errors: `text-empty`, `text-is-archive`, `text-not-text`, `text-line-too-long`, `text-option-invalid`, and those of `recognise`.
 */
export async function readHead(source: ByteSource, options: TextOptions): Promise<HeadResult> {
  const invalid = checkOptions(options);
  if (invalid !== undefined) return { ok: false, error: invalid };
  const first = recogniseBytes(await readFully(source, 0, FIRST_LOOK), source.length, options);
  if (first.ok || source.length <= FIRST_LOOK || first.error.code !== 'text-no-numbers') return first;
  return lookFurther(await readFully(source, 0, LAST_LOOK), source.length, options) ?? first;
}

/**
 * Behind a long preamble: steps forward in overlapping windows until one holds a table, which settles delimiter and decimal sign;
 * only then are the lines before it read. Words without numbers cost one look at each byte.
 */
function lookFurther(bytes: Uint8Array, length: number, options: TextOptions): HeadResult | undefined {
  const encoding = findEncoding(bytes, bytes.length >= length, options.encoding);
  const head = scannable(bytes, encoding, bytes.length >= length);
  if (isUnbroken(head)) return { ok: false, error: tooLong(1) };
  for (let from = FIRST_LOOK / 2; from < head.length; from += FIRST_LOOK / 2) {
    const end = Math.min(head.length, from + FIRST_LOOK);
    const window = head.subarray(from, end);
    if (!hasNumbers(window)) continue;
    const table = findTable(new TextDecoder('latin1').decode(window), false, { ...options, header: 'none' });
    if (table === undefined) continue;
    const settled = { ...options, delimiter: table.delimiter, decimal: table.decimal };
    const whole = end === head.length && bytes.length >= length;
    const result = recognise(head.subarray(0, end), whole, length * shareOf(encoding), encoding, settled);
    if (result.ok) return { ok: true, found: result.found, encoding, whole };
  }
  return undefined;
}

/** True when a tenth of the bytes are digits: prose and markup seldom come near, tables of numbers are far above. */
function hasNumbers(bytes: Uint8Array): boolean {
  let digits = 0;
  for (let i = 0; i < bytes.length; i++) if ((bytes[i]! ^ 48) < 10) digits++;
  return digits * 10 > bytes.length;
}

const isUnbroken = (head: Uint8Array): boolean =>
  head.length > LONGEST_LINE && !head.includes(10) && !head.includes(13);

/** Bytes of the file a byte of the scanned text stands for, about. */
const shareOf = (encoding: FoundEncoding): number => (isWide(encoding.name) ? 0.5 : 1);

function scannable(bytes: Uint8Array, encoding: FoundEncoding, whole: boolean): Uint8Array {
  const marked = bytes.subarray(encoding.mark);
  return isWide(encoding.name) ? wideToUtf8(encoding.name)(marked, whole) : marked;
}

/** A first glance, and how many lines it must hold to be trusted: most files show all they are in it. */
const GLANCE = 8 * 1024;
const LINES_IN_GLANCE = 60;

/**
 * Recognition on bytes in memory, `length` being the length of the whole file. Looks at the first 8 kB alone where they hold a
 * table with many rows of data, and at everything given otherwise.
 */
export function recogniseBytes(bytes: Uint8Array, length: number, options: TextOptions): HeadResult {
  if (bytes.length > 2 * GLANCE) {
    const glance = glanceAt(bytes.subarray(0, GLANCE), length, options);
    if (glance.ok && showsAll(glance.found.description, bytes)) return glance;
  }
  return recogniseAll(bytes, length, options);
}

interface Glance {
  readonly bytes: Uint8Array;
  readonly length: number;
  readonly options: string;
  readonly result: HeadResult;
}

/** The last glance: a file is recognised to find its format and once more to be read, with the same bytes and nothing changed. */
let lastGlance: Glance | undefined;

function glanceAt(bytes: Uint8Array, length: number, options: TextOptions): HeadResult {
  const asked = JSON.stringify(options);
  if (lastGlance?.length === length && lastGlance.options === asked && sameBytes(lastGlance.bytes, bytes)) {
    return lastGlance.result;
  }
  const result = recogniseAll(bytes, length, options);
  lastGlance = { bytes: bytes.slice(), length, options: asked, result };
  return result;
}

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** True when a glance held many rows and the time column goes on behind it as it began. */
function showsAll(description: TextDescription, bytes: Uint8Array): boolean {
  if (linesIn(bytes, GLANCE) - description.dataRow < LINES_IN_GLANCE) return false;
  return description.time === undefined || isEven(description, description.time, bytes);
}

/**
 * Whether the last time of all bytes given lies where the steps of the glance lead. Times written too coarsely look even for a
 * while and then skip; that must be seen, because it decides between a rate and a gap.
 */
function isEven({ columns, dataRow, delimiter, decimal }: TextDescription, time: TextTime, bytes: Uint8Array): boolean {
  const column = columns[time.column - 1];
  if (column === undefined || column.clock) return false;
  const end = Math.max(bytes.lastIndexOf(10), bytes.lastIndexOf(13));
  const lines = linesIn(bytes, end + 1);
  const tail = new TextDecoder('latin1').decode(bytes.subarray(Math.max(0, end - GLANCE), end)).split(/\r\n|\r|\n/);
  const cells = (tail.filter((line) => line !== '').at(-1) ?? '')
    .trim()
    .split(delimiter === ' ' ? /\s+/ : delimiter || '\n');
  const number = (cell: string | undefined) => Number((cell ?? '').trim().replace(decimal, '.') || 'none');
  const led = number(column.examples[0]) + time.step * (lines - dataRow);
  return Math.abs(number(cells[time.column - 1]) - led) < 0.5 * Math.max(time.resolution, 1e-6 * time.step);
}

function linesIn(bytes: Uint8Array, end: number): number {
  let lines = 0;
  for (let i = 0; i < end; i++) if (bytes[i] === 10 || (bytes[i] === 13 && bytes[i + 1] !== 10)) lines++;
  return lines;
}

function recogniseAll(bytes: Uint8Array, length: number, options: TextOptions): HeadResult {
  const whole = bytes.length >= length;
  const encoding = findEncoding(bytes, whole, options.encoding);
  const foreign = refuseForeign(bytes, isWide(encoding.name));
  if (foreign !== undefined) return { ok: false, error: foreign };
  const head = scannable(bytes, encoding, whole);
  if (head.every((byte) => byte <= 32)) {
    if (whole)
      return {
        ok: false,
        error: textError('text-empty', 'The file is empty.', { expected: 'rows of numbers', found: `${length} bytes` }),
      };
  }
  const result = recognise(head, whole, (length - encoding.mark) * shareOf(encoding), encoding, options);
  if (result.ok) return { ok: true, found: result.found, encoding, whole };
  return { ok: false, error: isUnbroken(head) ? tooLong(1) : result.error };
}

/** The error for a line without end. */
export const tooLong = (row: number): FormatError =>
  textError('text-line-too-long', `Row ${row} is longer than ${LONGEST_LINE} bytes.`, {
    expected: `a line break within ${LONGEST_LINE} bytes`,
    found: 'none',
    at: { row },
  });

function checkOptions(options: TextOptions): FormatError | undefined {
  const { rate, delimiter, header, decimal, layout, encoding } = options;
  if (rate !== undefined && !(rate > 0 && rate <= 1e7))
    return badOption('rate', rate, 'hertz above 0, at most 10 000 000');
  if (delimiter !== undefined && (delimiter.length > 1 || /["\r\n0-9+\-.eE]/.test(delimiter) || delimiter > '~')) {
    return badOption('delimiter', delimiter, 'one character that is part of no number, or nothing');
  }
  if (decimal !== undefined && decimal !== '.' && decimal !== ',') return badOption('decimal', decimal, '. or ,');
  if (decimal !== undefined && decimal === delimiter)
    return badOption('decimal', decimal, 'another character than the delimiter');
  if (header !== undefined && header !== 'none' && !(Number.isInteger(header) && header >= 1)) {
    return badOption('header', header, 'a row number from 1, or none');
  }
  if (layout !== undefined && layout !== 'channels' && layout !== 'trials')
    return badOption('layout', layout, 'channels or trials');
  if (encoding !== undefined && !['utf-8', 'utf-16le', 'utf-16be', 'latin-1'].includes(encoding)) {
    return badOption('encoding', encoding, 'utf-8, utf-16le, utf-16be or latin-1');
  }
  return undefined;
}
