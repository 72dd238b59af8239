import type { Trace } from '../../live/index.ts';
import type { Column } from './extreme-line.ts';

/**
 * Columns of a live curve. Buckets go together by their place in the recording, so that a curve that moves does not flicker.
 *
 * @param zero sample index that is 0 s
 * @param pixels of a second
 * @param from bucket to begin with
 */
export function* traceColumns(trace: Trace, zero: number, pixels: number, from = 0): Iterable<Column | undefined> {
  const { bucket, rate, low } = trace;
  const together = Math.max(1, Math.floor((1.01 * rate) / (pixels * bucket)));
  const begin = Math.round(trace.first / bucket);
  const at = (i: number) => (trace.first + i * bucket - zero) / rate;
  for (let i = from; i < low.length; ) {
    const next = Math.min(low.length, i + together - ((begin + i) % together));
    const found = extremes(trace.low, trace.high, i, next);
    yield found && { from: at(i), until: at(next), ...found };
    i = next;
  }
}

/** Columns of so many samples each, of a recording's samples from `first` to `last`. */
export function* sampleColumns(
  values: ArrayLike<number>,
  { first, last, step, rate }: { first: number; last: number; step: number; rate: number },
): Iterable<Column | undefined> {
  for (let i = first; i <= last; i += step) {
    const next = Math.min(i + step, last + 1);
    const found = extremes(values, values, i, next);
    yield found && { from: i / rate, until: (next - 1) / rate, ...found };
  }
}

type Forces = ArrayLike<number | null>;

/** Lowest and highest of some forces; undefined where one is missing: a gap stays a gap. */
function extremes(low: Forces, high: Forces, from: number, until: number): Pick<Column, 'low' | 'high'> | undefined {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = from; i < until; i++) {
    const [least, most] = [low[i], high[i]];
    if (typeof least !== 'number' || typeof most !== 'number' || Number.isNaN(least)) return undefined;
    lowest = Math.min(lowest, least);
    highest = Math.max(highest, most);
  }
  return { low: lowest, high: highest };
}
