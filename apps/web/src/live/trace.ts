import type { Envelope } from '@sthene/contract';

/** Smallest and largest force of each bucket, newest last, on one grid. */
export interface Trace {
  /** Sample index of the first bucket. */
  readonly first: number;
  /** Samples a bucket. */
  readonly bucket: number;
  readonly rate: number;
  readonly low: readonly (number | null)[];
  readonly high: readonly (number | null)[];
}

/** Seconds that are kept of the curve. */
export const keptSeconds = 20;

/** What a piece of curve needs to be appended. */
export type TracePiece = Pick<Envelope, 'first' | 'bucket' | 'rate'> & { readonly values: readonly (number | null)[] };

/**
 * The curve with a piece added at its end. What is missing between them becomes empty buckets, what is already there is left out, and
 * another grid or a gap of more than is kept begins anew.
 */
export function appended(trace: Trace | undefined, piece: TracePiece): Trace {
  const fresh: Trace = { first: piece.first, bucket: piece.bucket, rate: piece.rate, low: [], high: [] };
  const base = trace !== undefined && continues(trace, piece) ? trace : fresh;
  const end = base.first + base.low.length * base.bucket;
  const missing = Math.max(0, Math.round((piece.first - end) / base.bucket));
  const skip = Math.max(0, Math.round((end - piece.first) / base.bucket));
  const low: (number | null)[] = new Array(missing).fill(null);
  const high: (number | null)[] = new Array(missing).fill(null);
  for (let i = skip * 2; i + 1 < piece.values.length; i += 2) {
    low.push(piece.values[i] ?? null);
    high.push(piece.values[i + 1] ?? null);
  }
  const most = Math.ceil((keptSeconds * base.rate) / base.bucket);
  const drop = Math.max(0, base.low.length + low.length - most);
  return {
    ...base,
    first: base.first + drop * base.bucket,
    low: [...base.low, ...low].slice(drop),
    high: [...base.high, ...high].slice(drop),
  };
}

function continues(trace: Trace, piece: TracePiece): boolean {
  if (trace.bucket !== piece.bucket || trace.rate !== piece.rate) return false;
  const end = trace.first + trace.low.length * trace.bucket;
  return piece.first >= trace.first && piece.first - end <= keptSeconds * trace.rate;
}

/** Sample index just behind the newest bucket. */
export const endOf = (trace: Trace): number => trace.first + trace.low.length * trace.bucket;

/** Largest value from a sample on; undefined when there is none. */
export function highestSince(trace: Trace | undefined, sample: number): number | undefined {
  if (trace === undefined) return undefined;
  let best: number | undefined;
  for (let i = Math.max(0, Math.floor((sample - trace.first) / trace.bucket)); i < trace.high.length; i++) {
    const value = trace.high[i];
    if (typeof value === 'number' && (best === undefined || value > best)) best = value;
  }
  return best;
}
