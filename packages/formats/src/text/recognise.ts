import type { Notice } from '@sthene/core';
import type { FormatError } from '../format-error.ts';
import { badOption, columnOf, uniqueNames, unknownColumn } from './column-names.ts';
import type { TextColumn, TextDescription, TextTime } from './description.ts';
import { findTable, type Table } from './dialect.ts';
import { type FoundEncoding, scannedAs } from './encoding.ts';
import { quoteFound, textNotice } from './errors.ts';
import { declaredRate, factList, factOf } from './facts.ts';
import { findHeadings, type Headings } from './header-rows.ts';
import { guessLayout } from './layout.ts';
import type { TextOptions } from './options.ts';
import { decimalClash, MOST_COLUMNS, noTable, tooWide } from './recognise-errors.ts';
import { type Candidate, type FoundTime, findTime, namedTime } from './time-column.ts';
import { secondsIn, unitInHeader } from './unit-names.ts';

/** A recognised head: what to tell a person, and where the scanner begins. */
export interface Recognised {
  readonly description: TextDescription;
  /** Offset of the first data row in scannable bytes after the byte-order mark. */
  readonly dataByte: number;
}

export type RecogniseResult =
  | { readonly ok: true; readonly found: Recognised }
  | { readonly ok: false; readonly error: FormatError };

/**
 * Recognises the head of a text file.
 *
 * @param head scannable bytes after the byte-order mark (UTF-8 or latin-1)
 * @param whole true when `head` is the whole file
 * @param length length of the whole in the same bytes (an estimate is enough)
 */
export function recognise(
  head: Uint8Array,
  whole: boolean,
  length: number,
  encoding: FoundEncoding,
  options: TextOptions,
): RecogniseResult {
  const decoder = new TextDecoder(scannedAs(encoding.name));
  const decode = (text: string) => decoder.decode(Uint8Array.from(text, (c) => c.charCodeAt(0)));
  const table = findTable(byteText(head), whole, options);
  if (table === undefined) return { ok: false, error: noTable(head, options) };
  if (table.kinds.length > MOST_COLUMNS) return { ok: false, error: tooWide(table.kinds.length) };
  const headings = findHeadings(table, decode, options.header);
  const clash = decimalClash(table, headings, options);
  if (clash !== undefined) return { ok: false, error: clash };
  return describe({ head, whole, length, encoding, options, decode, table, headings });
}

interface Work {
  readonly head: Uint8Array;
  readonly whole: boolean;
  readonly length: number;
  readonly encoding: FoundEncoding;
  readonly options: TextOptions;
  readonly decode: (text: string) => string;
  readonly table: Table;
  readonly headings: Headings;
}

function describe(work: Work): RecogniseResult {
  const { table, headings, options, decode } = work;
  const notices: Notice[] = [];
  if (work.encoding.name === 'latin-1' && options.encoding === undefined) {
    notices.push(textNotice('text-encoding-latin-1', 'The file is not valid UTF-8; its words were read as latin-1.'));
  }
  const reasons: string[] = [dialectReason(table), headings.reason];
  const rows = table.records.slice(headings.start, headings.start + 2_000);
  const named = headings.header !== undefined;
  const names = uniqueNames(table.kinds.map((_, c) => headings.cells[c]?.name || `column ${c + 1}`));
  const units = table.kinds.map((_, c) => headings.cells[c]?.unit ?? '');
  const written = table.kinds.map((_, c) => headings.written[c] ?? '');
  for (const [key, unit] of Object.entries(options.units ?? {})) {
    const column = columnOf(key, names, written);
    if (column === undefined) return { ok: false, error: unknownColumn(key, names) };
    const code = unitInHeader(unit, true);
    if (code === undefined) return { ok: false, error: badOption('units', unit, 'a unit such as N, kN, lbf or V') };
    units[column] = code;
  }
  const candidates = table.kinds.map(
    (kind, c): Candidate => ({ index: c, name: names[c]!, header: written[c]!, unit: units[c]!, kind }),
  );
  let time: FoundTime | undefined;
  if (options.time === undefined) time = findTime(candidates, rows, table.decimal, named);
  else if (options.time !== 'none') {
    const column = columnOf(options.time, names, written);
    if (column === undefined) return { ok: false, error: unknownColumn(String(options.time), names) };
    time = namedTime(candidates[column]!, rows, table.decimal);
  }
  reasons.push(
    time?.reason ??
      (options.time === 'none' ? 'The file was said to have no time column.' : 'No time column was found.'),
  );
  if (time?.guessed) {
    const step = time.step.toPrecision(4);
    notices.push(
      textNotice(
        'text-time-unit-guessed',
        `The time column names no unit; steps of ${step} are taken as ${time.unit}.`,
      ),
    );
  }
  // The time axis is no channel: a channel of the same name keeps it.
  if (time !== undefined) {
    const others = uniqueNames(
      names.map((_, c) => headings.cells[c]?.name || `column ${c + 1}`).filter((_, c) => c !== time.index),
    );
    others.splice(time.index, 0, names[time.index]!);
    names.splice(0, names.length, ...others);
  }
  const columns = table.kinds.map((kind, c): TextColumn => {
    const unknown = headings.cells[c]?.unknownUnit;
    if (unknown !== undefined && units[c] === '') {
      notices.push(
        textNotice('text-unit-unknown', `Column ${c + 1} names the unit "${quoteFound(unknown)}", which is not known.`),
      );
    }
    return {
      number: c + 1,
      name: names[c]!,
      header: written[c]!,
      unit: time?.index === c ? time.unit : units[c]!,
      role: time?.index === c ? time.role : roleOf(kind, named && written[c] !== ''),
      clock: kind === 'clock',
      examples: rows.slice(0, 5).map((row) => decode(row.cells[c] ?? '').trim()),
    };
  });
  for (const column of columns) {
    if (column.role === 'text') {
      notices.push(
        textNotice(
          'text-column-ignored',
          `Column ${column.number} (${quoteFound(column.name)}) holds words and is not read.`,
        ),
      );
    }
  }
  const channels = columns.filter((column) => column.role === 'channel');
  if (channels.length === 0) return { ok: false, error: noTable(work.head, options) };
  const guessed = guessLayout(channels);
  const facts = preambleFacts(work, headings, notices);
  const told = options.layout ?? (facts.layout === 'channels' ? 'channels' : undefined);
  const layout = told ?? guessed.layout;
  reasons.push(told === undefined ? guessed.reason : `The columns were said to be ${layout}.`);
  const preamble = declaredRate(facts, table.decimal);
  const rate = bestRate(time, options.rate, preamble);
  const startByte = table.records[headings.start]?.start ?? work.head.length;
  const seen = table.records.length - headings.start;
  const bytesSeen = (table.records.at(-1)?.start ?? 0) + (table.records.at(-1)?.line.length ?? 0) + 1 - startByte;
  const rowsAbout = work.whole
    ? seen
    : Math.max(seen, Math.round(((work.length - startByte) / Math.max(1, bytesSeen)) * seen));
  const description: TextDescription = {
    encoding: work.encoding.name,
    byteOrderMark: work.encoding.mark > 0,
    delimiter: table.delimiter,
    decimal: table.decimal,
    preambleRows: headings.header ?? headings.start,
    ...(headings.header === undefined ? {} : { headerRow: headings.header + 1 }),
    ...(headings.units === undefined ? {} : { unitsRow: headings.units + 1 }),
    dataRow: headings.start + 1,
    columns,
    ...(time === undefined ? {} : { time: timeAxis(time, options.rate ?? preamble) }),
    ...(rate === undefined ? {} : { rate }),
    // Times that do not rise in the head are an error of the times, told when they are read.
    rateMissing: rate === undefined && time?.role !== 'time',
    layout,
    rowsAbout,
    confidence: confidenceOf(table, named, time, seen),
    reasons,
    facts,
    notices,
  };
  return { ok: true, found: { description, dataByte: startByte } };
}

function roleOf(kind: string, hasName: boolean): TextColumn['role'] {
  if (kind === 'text') return 'text';
  if (kind === 'empty') return hasName ? 'channel' : 'empty';
  return 'channel';
}

function timeAxis(time: FoundTime, rate: number | undefined): TextTime {
  const seconds = time.role === 'time' ? secondsIn(time.unit) : rate === undefined ? undefined : 1 / rate;
  const base = { column: time.index + 1, step: time.step, resolution: time.resolution };
  return seconds === undefined ? base : { ...base, secondsPerUnit: seconds };
}

function bestRate(
  time: FoundTime | undefined,
  given: number | undefined,
  preamble: number | undefined,
): TextDescription['rate'] {
  if (time?.role === 'time' && time.step > 0) {
    return { hertz: Number((1 / (time.step * (secondsIn(time.unit) ?? 1))).toPrecision(6)), from: 'time-column' };
  }
  if (given !== undefined) return { hertz: given, from: 'given' };
  return preamble === undefined ? undefined : { hertz: preamble, from: 'preamble' };
}

function confidenceOf(
  table: Table,
  named: boolean,
  time: FoundTime | undefined,
  seen: number,
): TextDescription['confidence'] {
  if (seen < 3) return 'low';
  if (named && time !== undefined && !time.guessed) return 'high';
  return named || time !== undefined || table.kinds.length === 1 ? 'medium' : 'low';
}

function dialectReason(table: Table): string {
  const between = {
    '\t': 'tabs',
    ';': 'semicolons',
    ',': 'commas',
    ' ': 'blanks',
    '|': 'bars',
    '': 'nothing (one column)',
  };
  const what = between[table.delimiter as keyof typeof between] ?? `"${table.delimiter}"`;
  return `${table.kinds.length} columns with ${what} between them and a decimal ${table.decimal === '.' ? 'point' : 'comma'}.`;
}

function preambleFacts(work: Work, headings: Headings, notices: Notice[]): Record<string, string> {
  const facts = factList();
  const end = headings.header ?? headings.start;
  for (let i = 0; i < end; i++) facts.add(factOf(work.table.records[i]!, `line ${i + 1}`, work.decode));
  if (facts.cut() > 0)
    notices.push(textNotice('text-facts-cut', `${facts.cut()} further lines before the data were not kept as facts.`));
  return facts.all();
}

/** One character a byte, so that positions in the text are positions in the file. */
function byteText(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 8192)
    text += String.fromCharCode.apply(null, bytes.subarray(i, i + 8192) as unknown as number[]);
  return text;
}
