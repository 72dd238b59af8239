import type { RecordedSpan, StreamChannel } from '@sthene/capture';
import { convertible, type SampleSpan } from '@sthene/core';
import type { RecentSamples } from './recent.ts';

/** SD of each channel over a quiet window, in the channel's unit. */
export function noiseOver(recent: RecentSamples, { start, end }: SampleSpan): Record<string, number> {
  return Object.fromEntries(
    recent.header.channels.map(({ name, scale }, c) => [
      name,
      Math.abs(scale) * sdOfPresent(recent.copy(c, start, end)),
    ]),
  );
}

/** Mean of each channel over the last 100 ms, in its own unit, without its zero. */
export function meansNow(
  recent: RecentSamples,
  zeros: Readonly<Record<string, number>>,
): { readonly name: string; readonly value: number }[] {
  const { header } = recent;
  const from = recent.next - Math.ceil(header.promisedRate / 10);
  return header.channels.map(({ name, scale, offset }, c) => ({
    name,
    value: (recent.mean(c, from, recent.next) - offset) * scale - (zeros[name] ?? 0),
  }));
}

/** Raw channels of a span, in the order of the stream: those the engine analyses, and beside them all others. */
export function spanOf(
  recent: RecentSamples,
  { start, end }: SampleSpan,
  unit: string,
  sampleRate: number,
): RecordedSpan {
  const isForce = ({ axis, unit: own }: StreamChannel) => (axis === 'z' || axis === 'force') && convertible(own, unit);
  return {
    sampleRate,
    ...forcesAndOthers(recent.header.channels, isForce, (index) => recent.copy(index, start, end)),
  };
}

/** Channels of a stream that carry force, and beside them all others, which the recording keeps as they came. */
export function forcesAndOthers(
  all: readonly StreamChannel[],
  isForce: (channel: StreamChannel) => boolean,
  rawOf: (index: number) => Float64Array,
): Omit<RecordedSpan, 'sampleRate'> {
  const part = (of: boolean) => {
    const chosen = all.flatMap((channel, index) => (isForce(channel) === of ? [{ channel, index }] : []));
    return { channels: chosen.map(({ channel }) => channel), raw: chosen.map(({ index }) => rawOf(index)) };
  };
  return { ...part(true), beside: part(false) };
}

function sdOfPresent(values: Float64Array): number {
  let n = 0;
  let mean = 0;
  let squares = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    n++;
    const d = value - mean;
    mean += d / n;
    squares += d * (value - mean);
  }
  return n < 2 ? 0 : Math.sqrt(squares / (n - 1));
}
