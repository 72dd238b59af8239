import type { Onset } from '../analysis/events.ts';
import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import { touchesGap } from '../signal/index.ts';
import type { OnsetInput } from './rule.ts';

/**
 * Onset by a force threshold, searched backward from the half rise: j = last index in [baseline start, r] with F <= B + d, and
 * the onset is j + 1.
 *
 * @param d height of the threshold above the baseline mean, in the unit of the forces
 * @returns `gap-in-interval` when a sample of [baseline start, r] is missing; `threshold-too-high` when B + d >= H;
 * `onset-not-found` when no such j exists
 */
export function searchBackward(input: OnsetInput, rule: string, d: number): Outcome<Onset> {
  const { forces, baseline, halfLevel, halfRise } = input;
  const threshold = baseline.mean + d;
  if (touchesGap(forces, baseline.start, halfRise)) return lack('gap-in-interval');
  if (threshold >= halfLevel) return lack('threshold-too-high');
  const force = forces.total;
  let j = halfRise;
  while (j >= baseline.start && (force[j] as number) > threshold) j--;
  if (j < baseline.start) return lack('onset-not-found');
  return have({
    index: j + 1,
    rule,
    threshold,
    thresholdUnit: forces.unit,
    baseline,
    search: { start: baseline.start, end: halfRise + 1 },
  });
}
