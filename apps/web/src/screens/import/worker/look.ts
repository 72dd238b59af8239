import { type Channel, type ForcePlatform, physicalValues, proposeForces, type Recording } from '@sthene/core';
import {
  blobOf,
  describeText,
  detectFormats,
  type FormatAnswer,
  formats,
  type NamedRecording,
  type TextDescription,
  type TextOptions,
} from '@sthene/formats';
import { looksLikeResults } from '@sthene/formats/results-table';
import type { FirstRows, Look, Reading, RecordingInfo, SourceInfo } from './messages.ts';
import { readFile } from './read-file.ts';
import { recordingSignature, textSignature } from './signature.ts';
import { suggest } from './suggest.ts';

const rowsShown = 5;
const bytesShown = 64;
const headBytes = 64 * 1024;

/** Detects, describes and reads a file, proposes its forces and a test. Never throws for a reason of the file. */
export async function lookAt(file: File, reading: Reading): Promise<Look> {
  const look = await lookForCurve(file, reading);
  const head = new Uint8Array(await file.slice(0, headBytes).arrayBuffer());
  const results = looksLikeResults(head, look.recording !== undefined);
  return results === 'no' ? look : { ...look, results };
}

async function lookForCurve(file: File, reading: Reading): Promise<Look> {
  const source = blobOf(file, file.name);
  const found = await detectFormats(source, formats);
  const best = found.find(({ detection }) => detection.match !== 'no');
  const firstBytes = hex(new Uint8Array(await file.slice(0, bytesShown).arrayBuffer()));
  const base = {
    answers: found.map(answerOf),
    format: best?.format.id ?? '',
    formatTitle: best?.format.title ?? '',
    firstBytes,
  };
  if (best === undefined) return base;
  const isText = best.format.id === 'text';
  const described = isText ? await describeText(source, reading as TextOptions) : undefined;
  const plain = isText ? await describeText(source) : undefined;
  const read = await readFile(file, reading);
  const text = described?.ok ? { text: described.description, rows: writtenRows(described.description) } : {};
  const signature = plain?.ok ? { signature: textSignature(plain.description) } : {};
  if (!read.ok) return { ...base, ...text, ...signature, error: read.error };
  const [first] = read.recordings;
  if (first === undefined) return { ...base, ...text, ...signature };
  const proposal = proposeForces(first.recording);
  return {
    ...base,
    ...(isText ? signature : { signature: recordingSignature(best.format.id, first.recording) }),
    ...(isText ? text : { rows: sampledRows(first.recording) }),
    recording: recordingInfo(read.recordings),
    proposal,
    ...(proposal.selection ? { suggestion: suggest(first.recording, proposal.selection, read.recordings.length) } : {}),
  };
}

const answerOf = ({ format, detection }: FormatAnswer) => ({ ...detection, format: format.id, title: format.title });

function recordingInfo(recordings: readonly NamedRecording[]): RecordingInfo {
  const { recording } = recordings[0] as NamedRecording;
  return {
    labels: recordings.map(({ label }) => label),
    sampleRate: recording.sampleRate,
    rateOrigin: recording.rateOrigin,
    sampleCount: recording.sampleCount,
    ...(recording.recordedAt === undefined ? {} : { recordedAt: recording.recordedAt }),
    sources: [...recording.platforms.map(platformInfo), ...recording.channels.map(channelInfo)],
    notices: recording.notices,
  };
}

function platformInfo({ name, type, verticalForce }: ForcePlatform, index: number): SourceInfo {
  const about = { kind: 'platform', index, name, unit: 'N', type, usable: verticalForce !== undefined } as const;
  return { ...about, ...rangeOf(verticalForce) };
}

function channelInfo(channel: Channel, index: number): SourceInfo {
  const about = { kind: 'channel', index, name: channel.name, unit: channel.unit, usable: true } as const;
  return { ...about, ...rangeOf(physicalValues(channel)) };
}

function rangeOf(values: Float64Array | undefined): { range?: readonly [number, number] } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values ?? []) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low <= high ? { range: [low, high] } : {};
}

function writtenRows({ columns, dataRow }: TextDescription): FirstRows {
  const count = Math.min(rowsShown, Math.max(0, ...columns.map(({ examples }) => examples.length)));
  return {
    head: columns.map(({ header, name }) => header || name),
    rows: Array.from({ length: count }, (_, row) => columns.map(({ examples }) => examples[row] ?? '')),
    from: dataRow,
  };
}

function sampledRows({ channels, sampleCount }: Recording): FirstRows {
  const count = Math.min(rowsShown, sampleCount);
  const first = channels.map((channel) => physicalValues({ ...channel, raw: channel.raw.slice(0, count) }));
  return {
    head: channels.map(({ name, unit }) => (unit === '' ? name : `${name} [${unit}]`)),
    rows: Array.from({ length: count }, (_, row) => first.map((values) => plain(values[row]))),
    from: 1,
  };
}

const plain = (value: number | undefined) =>
  value === undefined || Number.isNaN(value) ? '' : String(Number(value.toPrecision(7)));

const hex = (bytes: Uint8Array) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join(' ');
