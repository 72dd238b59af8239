import { meanOf, type Samples, sdOf } from '../signal/index.ts';

/** How long a plate has been at rest under its load, and what it shows. */
export interface SteadyReading {
  /** Mean of the steady time, N. */
  readonly mean: number;
  /** SD of its samples, N. */
  readonly sd: number;
  /** s, up to what was asked for. */
  readonly steadyFor: number;
}

/** Length of a block, s: whole periods of 50 and of 60 Hz. */
const block = 0.2;

/** Block means further apart than this are no rest: newtons, or the share of the load where that is more. */
const within = { newtons: 0.7, share: 0.0005 };

/**
 * Reads backwards from the newest sample for as long as the means of blocks of 0.2 s stay together, at most `seconds`.
 *
 * @param samples force of the plate, N, newest last; NaN where one is missing, which ends the rest
 * @param rate Hz
 * @returns undefined where not one block is whole
 */
export function steadyReading(samples: Samples, rate: number, seconds: number): SteadyReading | undefined {
  const length = Math.round(block * rate);
  const most = Math.round(seconds / block);
  let [low, high, blocks] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  for (let end = samples.length; end - length >= 0 && blocks < most; end -= length) {
    const mean = meanOf(samples, end - length, end);
    if (Number.isNaN(mean)) break;
    const [lower, upper] = [Math.min(low, mean), Math.max(high, mean)];
    if (blocks > 0 && upper - lower > Math.max(within.newtons, within.share * Math.abs(upper))) break;
    low = lower;
    high = upper;
    blocks++;
  }
  if (blocks === 0) return undefined;
  const from = samples.length - blocks * length;
  return { mean: meanOf(samples, from), sd: sdOf(samples, from), steadyFor: blocks * block };
}
