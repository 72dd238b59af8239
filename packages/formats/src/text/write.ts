import { type Channel, type Recording, rateOfTimes } from '@sthene/core';
import { headerCell } from './header-cell.ts';
import { guessLayout } from './layout.ts';

/** How our text form is written; the default is RFC 4180 with a decimal point and CRLF as that standard asks. */
export interface TextWriteOptions {
  readonly lineBreak?: 'lf' | 'crlf';
  /** A decimal comma is written with semicolons between the columns. */
  readonly decimal?: '.' | ',';
}

const ROWS_A_PIECE = 4096;

/**
 * Writes a recording as text: `time_s`, then one column a channel (`left_n`), shortest decimal numbers that read back to the
 * same doubles, empty cells for missing samples.
 *
 * Values are physical: (raw - offset) * scale. Time is n / sampleRate. Where reading could not find the same rate from the times
 * (one sample, or a rate within 0.05 % of a whole one), or would take the columns for trials, a line before the header says it.
 * Events, facts and platforms have no place in this form.
 *
 * @throws RangeError for a recording without channels
 */
export function writeText(recording: Recording, options: TextWriteOptions = {}): Uint8Array {
  if (recording.channels.length === 0) throw new RangeError('A recording without channels cannot be written as text.');
  const comma = options.decimal === ',';
  const delimiter = comma ? ';' : ',';
  const lineBreak = options.lineBreak === 'lf' ? '\n' : '\r\n';
  const number = comma ? (value: number) => print(value).replace('.', ',') : print;
  const { sampleRate, sampleCount } = recording;
  const columns = recording.channels.map(valuesOf);
  const inGap = gapFlags(recording);
  const line = (cells: readonly string[]) => cells.map((cell) => quote(cell, delimiter)).join(delimiter) + lineBreak;

  const pieces: string[] = declarations(recording).map(([key, value]) =>
    line([key, comma ? value.replace('.', ',') : value]),
  );
  pieces.push(line(['time_s', ...recording.channels.map((channel) => headerCell(channel.name, channel.unit))]));
  const bytes: Uint8Array[] = [];
  const encoder = new TextEncoder();
  for (let start = 0; start < sampleCount; start += ROWS_A_PIECE) {
    const stop = Math.min(sampleCount, start + ROWS_A_PIECE);
    for (let n = start; n < stop; n++) {
      let row = number(n / sampleRate);
      for (const value of columns) {
        const v = value(n, inGap[n] === 1);
        row += delimiter + (v === undefined ? '' : number(v));
      }
      pieces.push(row + lineBreak);
    }
    bytes.push(encoder.encode(pieces.join('')));
    pieces.length = 0;
  }
  if (pieces.length > 0) bytes.push(encoder.encode(pieces.join('')));
  return joined(bytes);
}

/** Shortest text that reads back to the same double; the sign of zero is kept. */
const print = (value: number): string => (Object.is(value, -0) ? '-0' : String(value));

/** Physical value of sample n, undefined where it is missing. Whole-number channels have no other mark than the gap. */
function valuesOf(channel: Channel): (n: number, inGap: boolean) => number | undefined {
  const { raw, scale, offset } = channel;
  const plain = scale === 1 && offset === 0;
  const floating = raw instanceof Float64Array || raw instanceof Float32Array;
  return (n, inGap) => {
    if (inGap && !floating) return undefined;
    const value = raw[n];
    if (value === undefined) return undefined;
    const physical = plain ? value : (value - offset) * scale;
    return Number.isFinite(physical) ? physical : undefined;
  };
}

function gapFlags(recording: Recording): Uint8Array {
  const flags = new Uint8Array(recording.sampleCount);
  for (const gap of recording.gaps) flags.fill(1, gap.start, gap.end);
  return flags;
}

/** Lines before the header, only where reading would otherwise differ. */
function declarations(recording: Recording): [string, string][] {
  const { sampleRate, sampleCount, channels } = recording;
  const lines: [string, string][] = [];
  const read = rateOfTimes(sampleCount, 0, (sampleCount - 1) / sampleRate);
  if (!read.ok || read.value.sampleRate !== sampleRate) lines.push(['sample_rate_hz', print(sampleRate)]);
  if (guessLayout(channels).layout === 'trials') lines.push(['layout', 'channels']);
  return lines;
}

function quote(cell: string, delimiter: string): string {
  return cell.includes('"') || cell.includes('\n') || cell.includes('\r') || cell.includes(delimiter)
    ? `"${cell.replaceAll('"', '""')}"`
    : cell;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
