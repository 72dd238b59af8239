import type { MetricDefinition } from '../metrics/metric.ts';
import { rootSumOfSquares } from './combine.ts';
import type { CheckedRig } from './sources.ts';

/**
 * What a session's value owes to the gain of its rig, as a standard uncertainty on the scale it is judged on: the same for every effort on
 * that rig until the next check, so that it is not in the scatter between sessions on one rig.
 *
 * Values that are proportional to force follow the gain by its share, allometric ones by a third of it; per kilogram and in ratios it
 * cancels. Of two plates that carry about the same each, their own gains reach the sum by 1 / sqrt(2), a value of one side whole, and an
 * asymmetry by 100 / sqrt(2).
 *
 * @param value in the metric's unit; only needed on the scale of the unit
 * @returns 0 where it cancels; undefined where the check does not tell the plates apart and the value holds them against each other
 */
export function commonToRig(
  { id, unit }: Pick<MetricDefinition, 'id' | 'unit'>,
  { gain, plateGain }: CheckedRig,
  scale: 'log' | 'unit',
  value: number,
): number | undefined {
  const between = betweenSides(id);
  if (between > 0) return plateGain === undefined ? undefined : between * plateGain;
  const ownShare = /^(?:left|right)_/u.test(id) ? 1 : Math.SQRT1_2;
  const share = powerOf(id, unit) * Math.hypot(gain, ownShare * (plateGain ?? 0));
  return scale === 'log' ? 100 * share : share * Math.abs(value);
}

/** Points a value moves for the gain of each of two plates that carry the same: 100 / sqrt(2) of (R - L) / (R + L), half that of R / F. */
function betweenSides(id: string): number {
  if (id.startsWith('asymmetry_')) return 100 / Math.SQRT2;
  return id === 'standing_share_right' ? 50 / Math.SQRT2 : 0;
}

/** Newtons, kilograms, and what is made of them by times, speeds and ways that do not depend on the gain. */
const proportional: ReadonlySet<string> = new Set(['N', 'kg', 'N/s', 'N.s', 'W', 'N/m']);

/** Power of the force in a value: allometric scaling takes two thirds of a mass that has the same gain off. */
const powerOf = (id: string, unit: string): number =>
  id === 'peak_force_allometric' ? 1 / 3 : proportional.has(unit) ? 1 : 0;

/**
 * Standard uncertainty between a new session and the mean of reference sessions that comes from their rigs: what both owe to one check
 * cancels by the weight they share, different checks are independent.
 *
 * @param sizes what a value owes to each check, by the check's id
 */
export function betweenChecks(now: string, reference: readonly string[], sizes: ReadonlyMap<string, number>): number {
  const weights = new Map([[now, 1]]);
  for (const id of reference) weights.set(id, (weights.get(id) ?? 0) - 1 / reference.length);
  return rootSumOfSquares([...weights].map(([id, weight]) => weight * (sizes.get(id) ?? 0)));
}
