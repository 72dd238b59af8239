import type { TrialContext } from '../analysis/trial-context.ts';
import type { Samples } from '../signal/index.ts';
import type { SampleNoise } from './sources.ts';

/**
 * Noise of one sample: S of the baseline. The sides share it as they share what changes from one sample to the next, so that their squares
 * add up to that of the sum: weight that goes from foot to foot moves each side, but is not noise.
 *
 * @returns undefined without a baseline
 */
export function sampleNoise({ events, forces }: TrialContext): SampleNoise | undefined {
  if (!events.baseline.ok) return undefined;
  const { start, end, sd } = events.baseline.value;
  const { left, right } = forces;
  if (left === undefined || right === undefined) return { total: sd };
  const [l, r] = [stepSquares(left, start, end), stepSquares(right, start, end)];
  const share = l + r > 0 ? l / (l + r) : 0.5;
  return { total: sd, left: sd * Math.sqrt(share), right: sd * Math.sqrt(1 - share) };
}

function stepSquares(force: Samples, start: number, end: number): number {
  let sum = 0;
  for (let i = start + 1; i < end; i++) sum += ((force[i] as number) - (force[i - 1] as number)) ** 2;
  return sum;
}
