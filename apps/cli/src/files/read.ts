import { describeText, detectFormats, type Format, formats, type ReadResult, type TextOptions } from '@sthene/formats';
import { exitCodes } from '../terminal/exit-codes.ts';
import { Failure } from '../terminal/failure.ts';
import { openFile } from './file-source.ts';

/** What the options say about reading; only text files need any of it. */
export interface ReadingOptions {
  readonly time?: string;
  readonly rate?: number;
  readonly layout?: 'channels' | 'trials';
  readonly delimiter?: string;
  readonly decimal?: '.' | ',';
}

export interface ReadFile {
  readonly format: Format;
  readonly recordings: Extract<ReadResult, { ok: true }>['recordings'];
}

/** Recognises and reads a file. Fails with the format's own code, or `format-not-recognised` with what each format missed. */
export async function readFile(path: string, options: ReadingOptions): Promise<ReadFile> {
  const source = await openFile(path);
  try {
    const answers = await detectFormats(source, formats);
    const best = answers.find(({ detection }) => detection.match !== 'no');
    if (best === undefined) {
      const missed = answers.map(({ format, detection }) => `${format.title}: ${detection.reason}`).join(' ');
      throw new Failure('format-not-recognised', `No format recognises "${path}".`, missed, exitCodes.inputInvalid);
    }
    const read = await best.format.read(source, textOptions(options));
    if (!read.ok) throw new Failure(read.error.code, read.error.message, read.error.next, exitCodes.inputInvalid);
    return { format: best.format, recordings: read.recordings };
  } finally {
    await source.close();
  }
}

/** Turns what a person calls a column, its number in the file or its header cell, into a channel name. */
export async function columnNamer(
  path: string,
  format: Format,
  options: ReadingOptions,
): Promise<(column: string) => string | undefined> {
  if (format.id !== 'text') return () => undefined;
  const source = await openFile(path);
  try {
    const described = await describeText(source, textOptions(options));
    const columns = described.ok ? described.description.columns : [];
    return (column) =>
      (columns.find((one) => one.header === column) ?? columns.find((one) => String(one.number) === column))?.name;
  } finally {
    await source.close();
  }
}

/** The options as the text reader takes them. A column given as digits is a number unless a column has that name. */
export function textOptions({ time, rate, layout, delimiter, decimal }: ReadingOptions): TextOptions {
  return {
    ...(time === undefined ? {} : { time: /^\d+$/.test(time) ? Number(time) : time }),
    ...(rate === undefined ? {} : { rate }),
    ...(layout === undefined ? {} : { layout }),
    ...(delimiter === undefined ? {} : { delimiter: delimiter === '\\t' || delimiter === 'tab' ? '\t' : delimiter }),
    ...(decimal === undefined ? {} : { decimal }),
  };
}
