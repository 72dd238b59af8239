import type { Channel, Recording } from '@sthene/core';
import { describeRecording, type RecordingDescription } from '../description/index.ts';
import { csvNumber, csvRecord } from './csv.ts';
import type { Field } from './descriptor.ts';

/** A recording as a table: CSV text, its fields, and the description that makes the table a recording again. */
export interface Curve {
  readonly csv: Uint8Array;
  readonly fields: readonly Field[];
  readonly description: RecordingDescription;
}

/** The channel with its physical values as raw values: what a table of newtons and volts says. */
function physical(channel: Channel): Channel {
  const { name, unit, raw, scale, offset, rawRange } = channel;
  const values = Float64Array.from(raw, (value: number) => (value - offset) * scale);
  const range = rawRange?.map((value) => (value - offset) * scale).sort((a, b) => a - b);
  const [low, high] = range ?? [];
  return {
    name,
    unit,
    // A channel that needs no scaling keeps its very values, the sign of zero included.
    raw: scale === 1 && offset === 0 ? Float64Array.from(raw) : values,
    scale: 1,
    offset: 0,
    ...(low === undefined || high === undefined ? {} : { rawRange: [low, high] as const }),
  };
}

/** Names of columns that differ from each other and from those taken. */
function freeName(base: string, taken: Set<string>): string {
  let name = base;
  for (let n = 2; taken.has(name); n++) name = `${base} (${n})`;
  taken.add(name);
  return name;
}

const rowsAPiece = 4096;

/**
 * Writes the physical values of a recording as CSV: `time` in s, the channels, then the vertical forces of plates in N.
 *
 * @param keepFacts false leaves out facts, notices and the instant of recording: they may name people and devices
 */
export function curveOf(recording: Recording, keepFacts: boolean): Curve {
  const channels = recording.channels.map(physical);
  const kept: Recording = { ...recording, channels };
  const { recordedAt: _, ...rest } = kept;
  const described = describeRecording(keepFacts ? kept : { ...rest, facts: {}, notices: [] });
  const taken = new Set(['time']);
  const fields: Field[] = [{ name: 'time', type: 'number', unit: 's' }];
  const columns: Float64Array[] = [];
  for (const { name, unit, raw } of channels) {
    fields.push({ name: freeName(name, taken), type: 'number', ...(unit === '' ? {} : { unit }) });
    columns.push(raw as Float64Array);
  }
  for (const { name, verticalForce } of recording.platforms) {
    if (verticalForce === undefined) continue;
    fields.push({ name: freeName(`${name} vertical force`, taken), type: 'number', unit: 'N' });
    columns.push(verticalForce);
  }
  const encoder = new TextEncoder();
  const pieces: Uint8Array[] = [];
  let text = csvRecord(fields.map((field) => field.name));
  for (let n = 0; n < recording.sampleCount; n++) {
    text += csvNumber(n / recording.sampleRate);
    for (const column of columns) text += `,${csvNumber(column[n] as number)}`;
    text += '\r\n';
    if (n % rowsAPiece === rowsAPiece - 1) {
      pieces.push(encoder.encode(text));
      text = '';
    }
  }
  pieces.push(encoder.encode(text));
  const csv = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    csv.set(piece, at);
    at += piece.length;
  }
  return { csv, fields, description: described };
}
