import { normal } from '../distributions/index.ts';
import { type Estimate, usualLevel } from '../interval.ts';
import { errorOfZ, quickFrom, quickZInterval, tScore, zInterval } from '../scores/index.ts';

/** A score, with limits where it is known from how many people the group's mean and SD come. */
export interface PlaceScore {
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
}

/** Where one value stands among people of whom mean and SD are known. */
export interface PlaceInGroup {
  readonly z: PlaceScore;
  /** 50 + 10 z */
  readonly t: PlaceScore;
  /** Share of the group below, %, if its values are normal. */
  readonly percentile: PlaceScore;
  /** Standard error of z; undefined without n. */
  readonly error?: number;
  readonly level?: number;
}

/** Fewer people than this carry no interval: their SD says too little. */
const fewestForInterval = 3;

/**
 * z = (x - mean) / SD, percentile 100 Phi(z), T = 50 + 10 z. Limits of z as in a squad: exact under 30 people, from there on by SE(z) =
 * sqrt(1/n + z^2 / (2n)); those of the others follow from them. Without n there are none.
 *
 * @param sd above zero
 * Source: McMahon et al. 2022, Sensors 22:8669 (T for jumps); the interval is that of `standing`.
 */
export function placeInGroup(
  x: number,
  { mean, sd, n }: { readonly mean: number; readonly sd: number; readonly n?: number | undefined },
  level = usualLevel,
): PlaceInGroup {
  const z = (x - mean) / sd;
  if (n === undefined || n < fewestForInterval) return scores({ value: z });
  const limits: Estimate = n >= quickFrom ? quickZInterval(z, n, level) : zInterval(z, n, level);
  return { ...scores(limits), error: errorOfZ(z, n), level };
}

function scores({ value, low, high }: PlaceScore): Pick<PlaceInGroup, 'z' | 't' | 'percentile'> {
  const through = (of: (z: number) => number): PlaceScore => ({
    value: of(value),
    ...(low === undefined || high === undefined ? {} : { low: of(low), high: of(high) }),
  });
  return { z: through((z) => z), t: through(tScore), percentile: through((z) => 100 * normal.below(z)) };
}
