import type { MonotonicNanoseconds, Recording, SampleSpan, UtcInstant } from '@sthene/core';
import { secondsAfter } from '../../clock/time.ts';
import type { Packet } from '../../packets/packet.ts';
import type { FileChannel } from './channels-of.ts';

export interface RecordingStream {
  readonly source: string;
  readonly device?: string;
  readonly channels: readonly FileChannel[];
  readonly began: MonotonicNanoseconds;
  readonly wallClock: UtcInstant;
  /** Samples a packet. */
  readonly piece: number;
}

/**
 * A recording as packets, from header to end: raw values as the file has them, its missing samples as gaps. `at` of each packet
 * is where the end of its samples lies on the recording's own time, counted from the beginning.
 */
export function* recordingPackets(recording: Recording, stream: RecordingStream): Generator<Packet> {
  const { sampleRate, sampleCount } = recording;
  const { source, device, channels, began, wallClock } = stream;
  const at = (n: number) => secondsAfter(began, n / sampleRate);
  yield {
    kind: 'header',
    source,
    ...(device === undefined ? {} : { device }),
    promisedRate: sampleRate,
    channels: channels.map(({ channel }) => channel),
    at: began,
    wallClock,
  };
  yield { kind: 'clock', sample: 0, at: began, wallClock, measuredRate: recording.measuredRate ?? sampleRate };
  const missing = missingSpans(recording, channels);
  let samples = 0;
  let lost = 0;
  let gap = 0;
  for (let n = 0; n < sampleCount; ) {
    const next = missing[gap];
    if (next !== undefined && next.start === n) {
      yield { kind: 'gap', first: n, count: next.end - n, cause: 'lost', at: at(next.end) };
      lost += next.end - n;
      n = next.end;
      gap++;
      continue;
    }
    const stop = Math.min(n + stream.piece, next?.start ?? sampleCount, sampleCount);
    const count = stop - n;
    const values = new Float64Array(count * channels.length);
    channels.forEach(({ index }, c) => {
      const raw = recording.channels[index]?.raw;
      for (let i = 0; i < count; i++) values[c * count + i] = raw?.[n + i] as number;
    });
    yield { kind: 'samples', first: n, count, values, at: at(stop) };
    samples += count;
    n = stop;
  }
  yield { kind: 'end', samples, gaps: missing.length, missing: lost, at: at(sampleCount) };
}

/** Gaps of the file, and samples of which a chosen channel has no value. */
function missingSpans({ gaps, channels, sampleCount }: Recording, chosen: readonly FileChannel[]): SampleSpan[] {
  const flags = new Uint8Array(sampleCount);
  for (const { start, end } of gaps) flags.fill(1, start, end);
  for (const { index } of chosen) {
    const raw = channels[index]?.raw;
    for (let n = 0; n < sampleCount; n++) if (!Number.isFinite(raw?.[n])) flags[n] = 1;
  }
  const spans: SampleSpan[] = [];
  for (let n = 0; n < sampleCount; n++) {
    if (flags[n] !== 1) continue;
    const start = n;
    while (n < sampleCount && flags[n] === 1) n++;
    spans.push({ start, end: n });
  }
  return spans;
}
