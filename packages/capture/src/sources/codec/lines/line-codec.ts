import { longestLine } from '../../description/read-layout.ts';
import type { LineLayout } from '../../description.ts';
import type { Codec, CodecReader, Run } from '../run.ts';
import { parseNumber } from './parse-number.ts';

export interface LineCodecOptions {
  /** False where reading may begin in the middle of a line (a serial port): what comes before the first line end is left out. */
  readonly startsWhole?: boolean;
}

/**
 * Text lines, one sample each. Lines end with CR, LF or both; empty ones and comments are passed over.
 *
 * A line with other fields than described, a cell that is no number, or more than 4096 characters is unreadable and counted.
 * Bytes above 127 are no digits, so their encoding does not matter.
 */
export function lineCodec(
  layout: LineLayout,
  channels: readonly string[],
  reader: CodecReader,
  options: LineCodecOptions = {},
): Codec {
  const decimal = layout.decimal ?? '.';
  const places = layout.fields.map((field) => (field.role === 'channel' ? channels.indexOf(field.channel) : -1));
  let line = '';
  let tooLong = false;
  let partial = options.startsWhole !== true;

  const finish = (): void => {
    const text = line;
    const long = tooLong;
    line = '';
    tooLong = false;
    if (partial) {
      partial = false;
      return;
    }
    const trimmed = text.trim();
    if (!long && (trimmed === '' || (layout.comment !== undefined && trimmed.startsWith(layout.comment)))) return;
    const run = long ? undefined : readLine(trimmed);
    if (run === undefined) reader.damage({ fault: 'unreadable', count: 1, samples: 1 });
    else reader.run(run);
  };

  const readLine = (text: string): Run | undefined => {
    const cells = layout.delimiter === ' ' ? text.split(/[ \t]+/u) : text.split(layout.delimiter);
    if (cells.length !== layout.fields.length) return undefined;
    const values = new Float64Array(channels.length);
    let counter: number | undefined;
    let time: number | undefined;
    for (let i = 0; i < cells.length; i++) {
      const field = layout.fields[i] as LineLayout['fields'][number];
      if (field.role === 'ignore') continue;
      const value = parseNumber((cells[i] as string).trim(), decimal);
      if (value === undefined) return undefined;
      if (field.role === 'channel') values[places[i] as number] = value;
      else if (field.role === 'time') time = value;
      else if (Number.isSafeInteger(value) && value >= 0) counter = value;
      else return undefined;
    }
    return { count: 1, values, ...(counter === undefined ? {} : { counter }), ...(time === undefined ? {} : { time }) };
  };

  return {
    feed(bytes) {
      let start = 0;
      for (let i = 0; i <= bytes.length; i++) {
        const byte = bytes[i];
        if (i < bytes.length && byte !== 10 && byte !== 13) continue;
        if (line.length + (i - start) > longestLine) {
          tooLong = true;
          line = '';
        } else if (!tooLong) line += latin(bytes, start, i);
        start = i + 1;
        if (i < bytes.length && (line !== '' || tooLong || partial)) finish();
      }
    },
    end() {
      if (line !== '' || tooLong) finish();
      partial = options.startsWhole !== true;
    },
  };
}

function latin(bytes: Uint8Array, start: number, end: number): string {
  let text = '';
  for (let i = start; i < end; i++) text += String.fromCharCode(bytes[i] as number);
  return text;
}
