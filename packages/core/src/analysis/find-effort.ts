import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import { indexOfLargest } from '../signal/index.ts';
import { findAnchor } from './anchor.ts';
import { findBaseline } from './baseline.ts';
import { type EffortSearch, leastRise } from './effort-search.ts';
import type { Baseline, EffortEvents, Peak } from './events.ts';
import { findStanding } from './standing.ts';

/** The events of one effort that need no onset rule. */
export type Effort = Omit<EffortEvents, 'onset'>;

/**
 * Finds the largest sustained effort inside the span: anchor, quiet level, half rise, end, baseline, peak, start of the rise.
 *
 * Without a standing window but with a weighed or given W, Q = W and the baseline has the reason `no-standing-window`. A span that
 * begins above the half level has no half rise: what came before is not known, so there is no effort to measure.
 *
 * @returns `recording-too-short`, `gap-in-interval` (no window without missing samples), `no-standing-window`, `no-effort`
 */
export function findEffort(search: EffortSearch): Outcome<Effort> {
  const { forces, span, weight } = search;
  const force = forces.total;
  const found = findAnchor(search);
  if (!found.ok) return found;
  const anchor = found.value;
  const standing = findStanding(search, anchor);
  const quietLevel = standing?.level ?? weight;
  if (quietLevel === undefined) return lack('no-standing-window');
  const halfLevel = quietLevel + 0.5 * (anchor.mean - quietLevel);

  let halfRise = anchor.middle - 1;
  while (halfRise >= span.start && (force[halfRise] as number) > halfLevel) halfRise--;
  if (halfRise < span.start) return lack(standing ? 'no-effort' : 'no-standing-window');
  let end = anchor.middle + 1;
  while (end < span.end && (force[end] as number) > halfLevel) end++;
  end = Math.min(end, span.end - 1);

  const baseline = standing ? findBaseline(search, halfRise, standing.table) : lack('no-standing-window');
  const index = indexOfLargest(force, halfRise + 1, end + 1);
  const peak: Peak = { index, force: force[index] as number };
  if (!isEffort(peak, baseline, quietLevel, search.weighted)) return lack('no-effort');
  return have({
    span,
    anchor: anchor.middle,
    anchorMean: anchor.mean,
    quietLevel,
    ...(standing ? { quietWindow: standing.window } : {}),
    halfLevel,
    halfRise,
    end,
    peak,
    baseline,
    riseStart: riseStart(search, halfRise, peak, baseline),
  });
}

/**
 * F_p - B >= max(10 S, 50 N), 10 S without body weight, and always more than nothing; without a baseline the quiet level
 * stands for B and 50 N remain.
 */
function isEffort(peak: Peak, baseline: Outcome<Baseline>, quietLevel: number, weighted: boolean): boolean {
  const rise = peak.force - (baseline.ok ? baseline.value.mean : quietLevel);
  const least = Math.max(baseline.ok ? 10 * baseline.value.sd : 0, weighted ? leastRise : 0);
  return rise > 0 && rise >= least;
}

/** q: last index before r with F <= B + 0.1 (F_p - B). */
function riseStart(search: EffortSearch, halfRise: number, peak: Peak, baseline: Outcome<Baseline>): Outcome<number> {
  if (!baseline.ok) return baseline;
  const { mean } = baseline.value;
  const level = mean + 0.1 * (peak.force - mean);
  let q = halfRise - 1;
  while (q >= search.span.start && (search.forces.total[q] as number) > level) q--;
  return q >= search.span.start ? have(q) : lack('onset-not-found');
}
