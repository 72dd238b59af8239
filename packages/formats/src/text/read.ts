import type { Channel, Notice, Recording, SampleSpan } from '@sthene/core';
import type { ByteSource, NamedRecording, ReadResult } from '../format.ts';
import { textError, textNotice } from './errors.ts';
import { GrowingColumn } from './growing-column.ts';
import { readHead } from './head.ts';
import type { TextOptions } from './options.ts';
import { type ScanSummary, scanRecognised } from './scan.ts';
import type { ScannedGrid } from './scanned-grid.ts';

/** Most values held in memory: 1 GiB of them. Larger files go through `scanText`. */
const MOST_VALUES = 2 ** 27;

/**
 * Reads a text into recordings: one with all channels, or one a column when the columns are trials.
 *
 * Values are kept as written (no unit is converted); missing cells and skipped times are gaps. Errors: those of `scanText`,
 * `text-rate-missing` without a time column and a rate, `text-too-large` beyond 1 GiB of values.
 */
export async function readText(source: ByteSource, options: TextOptions = {}): Promise<ReadResult> {
  const head = await readHead(source, options);
  if (!head.ok) return head;
  if (head.found.description.rateMissing) return rateMissing();
  let columns: GrowingColumn[] | undefined;
  let tooLarge = false;
  const timed = head.found.description.time !== undefined;
  const result = await scanRecognised(source, head, options, (block) => {
    columns ??= block.columns.map(() => new GrowingColumn());
    // The time axis is followed while scanning and not kept.
    for (let c = timed ? 1 : 0; c < block.columns.length; c++) columns[c]!.push(block.columns[c]!);
    tooLarge = (block.firstRow + block.rows) * block.columns.length > MOST_VALUES;
    return !tooLarge;
  });
  if (!result.ok) return result;
  if (tooLarge) {
    return {
      ok: false,
      error: textError('text-too-large', 'The file holds more numbers than are kept in memory.', {
        expected: `at most ${MOST_VALUES} numbers`,
        found: 'more',
      }),
    };
  }
  const { summary } = result;
  const { grid } = summary;
  if (grid === undefined || columns === undefined) return rateMissing();
  const channels = summary.columns.slice(timed ? 1 : 0).map(
    (column, c): Channel => ({
      name: column.name,
      unit: column.unit,
      raw: onGrid(columns![c + (timed ? 1 : 0)]!.finish(), grid),
      scale: 1,
      offset: 0,
    }),
  );
  return {
    ok: true,
    recordings:
      summary.description.layout === 'trials' ? trials(summary, grid, channels) : [one(summary, grid, channels)],
  };
}

function rateMissing(): ReadResult {
  return {
    ok: false,
    error: textError('text-rate-missing', 'The file has no time column and names no sample rate.', {
      expected: 'a rate in hertz',
      found: 'none',
    }),
  };
}

function one(summary: ScanSummary, grid: ScannedGrid, channels: readonly Channel[]): NamedRecording {
  return { label: '', recording: recordingOf(summary, grid, channels, summary.notices) };
}

/** Each column a recording; the empty end of a shorter trial is no gap. */
function trials(summary: ScanSummary, grid: ScannedGrid, channels: readonly Channel[]): NamedRecording[] {
  const note = textNotice(
    'text-layout-trials',
    `The ${channels.length} columns were read as ${channels.length} trials.`,
  );
  const notices: Notice[] = [...summary.notices, ...(summary.description.columns.length > 1 ? [note] : [])];
  return channels.map((channel) => {
    const raw = channel.raw as Float64Array;
    let end = raw.length;
    while (end > 1 && Number.isNaN(raw[end - 1])) end--;
    return {
      label: channel.name,
      recording: recordingOf(summary, grid, [{ ...channel, raw: raw.slice(0, end) }], notices),
    };
  });
}

function recordingOf(
  summary: ScanSummary,
  grid: ScannedGrid,
  channels: readonly Channel[],
  notices: readonly Notice[],
): Recording {
  return {
    sampleRate: grid.sampleRate,
    rateOrigin: grid.rateOrigin,
    ...(grid.measuredRate === undefined ? {} : { measuredRate: grid.measuredRate }),
    sampleCount: channels[0]?.raw.length ?? 0,
    channels,
    platforms: [],
    gaps: missingSpans(channels),
    events: [],
    facts: summary.facts,
    notices,
  };
}

/** Rows laid onto the grid: skipped samples are NaN, repeated rows are left out. */
function onGrid(rows: Float64Array, grid: ScannedGrid): Float64Array {
  if (grid.shifts.length === 0) return rows;
  const samples = new Float64Array(grid.samples).fill(Number.NaN);
  const left = new Set(grid.repeated);
  let offset = 0;
  let next = 0;
  for (let row = 0; row < rows.length; row++) {
    while (next < grid.shifts.length && grid.shifts[next]!.row <= row) offset = grid.shifts[next++]!.offset;
    if (!left.has(row)) samples[row + offset] = rows[row]!;
  }
  return samples;
}

/** Runs of samples in which any channel has no value. */
function missingSpans(channels: readonly Channel[]): SampleSpan[] {
  if (!channels.some(({ raw }) => hasMissing(raw as Float64Array))) return [];
  const count = channels[0]?.raw.length ?? 0;
  const spans: SampleSpan[] = [];
  let start = -1;
  for (let n = 0; n < count; n++) {
    let missing = false;
    for (const channel of channels) if (Number.isNaN(channel.raw[n])) missing = true;
    if (missing && start < 0) start = n;
    if (!missing && start >= 0) {
      spans.push({ start, end: n });
      start = -1;
    }
  }
  if (start >= 0) spans.push({ start, end: count });
  return spans;
}

function hasMissing(raw: Float64Array): boolean {
  for (let n = 0; n < raw.length; n++) if (Number.isNaN(raw[n])) return true;
  return false;
}
