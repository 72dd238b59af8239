import type { TrialContext } from '../analysis/trial-context.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import type { Samples } from '../signal/index.ts';
import type { SampleNoise } from './sources.ts';

/** Noise of one sample: S of the baseline, shared by the sides; undefined without a baseline. */
export const sampleNoise = ({ events, forces }: TrialContext): SampleNoise | undefined =>
  events.baseline.ok ? noiseOver(forces, events.baseline.value, events.baseline.value.sd) : undefined;

/**
 * Noise of one sample with what each side has of it, by the squares of what changes from one sample to the next: weight that goes from foot
 * to foot moves each side, but is not noise. The squares of the sides, and of plates without a side, add up to that of the sum.
 *
 * @param over samples the SD was taken from
 * @param sd of the sum of all plates
 */
export function noiseOver(forces: Forces, over: SampleSpan, sd: number): SampleNoise {
  const { left, right, plates } = forces;
  if (left === undefined || right === undefined) return { total: sd };
  const declared = plates.some(({ side }) => side === 'total');
  const without = declared ? [] : plates.filter(({ side }) => side === 'none');
  const [l, r] = [stepSquares(left, over), stepSquares(right, over)];
  const all = without.reduce((sum, { force }) => sum + stepSquares(force, over), l + r);
  const ofSide = (own: number) => sd * Math.sqrt(all > 0 ? own / all : 0.5);
  return { total: sd, left: ofSide(l), right: ofSide(r) };
}

/** Noise of the plates without a side, where the sides do not have all of it. */
export function noiseWithoutSide({ total, left, right }: SampleNoise): number {
  if (left === undefined || right === undefined) return 0;
  const square = total ** 2 - left ** 2 - right ** 2;
  // What is left of two sides that have all of it is rounding.
  return square > rounding * total ** 2 ? Math.sqrt(square) : 0;
}

const rounding = 1e-9;

function stepSquares(force: Samples, { start, end }: SampleSpan): number {
  let sum = 0;
  for (let i = start + 1; i < end; i++) sum += ((force[i] as number) - (force[i - 1] as number)) ** 2;
  return sum;
}
