import type { RawSamples } from './recording.ts';

/** What a weighted sum needs of a channel: its samples and how they become a physical value. */
export interface ScaledSamples {
  readonly raw: RawSamples;
  readonly scale: number;
  readonly offset: number;
}

/** A share of one channel: `factor` units of the sum per physical unit of the channel. */
export interface WeightedTerm {
  readonly channel: ScaledSamples;
  readonly factor: number;
}

/**
 * One row of a calibration matrix times its signals: the sum over the terms of factor * (raw - offset) * scale, added up in their
 * order. A missing sample (NaN) in any channel with a share makes the sum NaN there; a channel whose factor is 0 has no share.
 *
 * @param terms at least one, all of equal length
 */
export function weightedSum(terms: readonly WeightedTerm[]): Float64Array {
  const sum = new Float64Array(terms[0]?.channel.raw.length ?? 0);
  for (const { channel, factor } of terms) {
    if (factor === 0) continue;
    const { raw, scale, offset } = channel;
    for (let i = 0; i < sum.length; i++) sum[i]! += factor * (((raw[i] as number) - offset) * scale);
  }
  return sum;
}
