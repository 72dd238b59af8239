import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import { meanOf, sdOf } from '../signal/index.ts';
import { baselineUnrest, type EffortSearch, isWhole, leastStanding } from './effort-search.ts';
import type { Baseline } from './events.ts';
import { type WindowTable, windowTable } from './window-table.ts';

/**
 * Finds what the athlete pulled from: the latest quiet window before the half rise, kept clear of the rise.
 *
 * Windows: m_k >= 100 N, s_k <= 5 % of m_k, last sample in [r - 3 s, r] (limits dropped without body weight). With s* the
 * smallest s_k, K is the latest start with s_k <= max(2 s*, 0.5 % of m_k) (2 s* without body weight); the baseline starts at
 * max(K - 0.1 s, first start among the windows). The quietest second of a sway is its crest, so the latest one is taken.
 *
 * @param known a table that may already hold these windows
 * @returns `no-quiet-window` when there is none; `gap-in-interval` when the window found misses samples
 */
export function findBaseline(search: EffortSearch, halfRise: number, known?: WindowTable): Outcome<Baseline> {
  const { forces, span, width, reach, clearance, weighted } = search;
  const first = Math.max(span.start, Math.ceil(halfRise - reach) - width + 1);
  const last = halfRise - width + 1;
  const table = known && known.first <= first && known.last >= last ? known : windowTable(search, first, last);
  const gaps = forces.gaps.open.length > 0;
  const fits = (k: number): boolean => {
    const mean = table.mean[k - table.first] as number;
    const sd = table.sd[k - table.first] as number;
    if (weighted && !(mean >= leastStanding && sd <= baselineUnrest * mean)) return false;
    return !gaps || isWhole(forces, k, width);
  };
  let earliest = -1;
  let quietest = Number.POSITIVE_INFINITY;
  for (let k = first; k <= last; k++) {
    if (!fits(k)) continue;
    if (earliest < 0) earliest = k;
    const sd = table.sd[k - table.first] as number;
    if (sd < quietest) quietest = sd;
  }
  if (earliest < 0) return lack('no-quiet-window');
  let latest = last;
  for (; latest > earliest; latest--) {
    if (!fits(latest)) continue;
    const share = weighted ? 0.005 * (table.mean[latest - table.first] as number) : 0;
    if ((table.sd[latest - table.first] as number) <= Math.max(2 * quietest, share)) break;
  }
  const start = Math.max(latest - clearance, earliest);
  const end = start + width;
  if (gaps && !isWhole(forces, start, width)) return lack('gap-in-interval');
  return have({ start, end, mean: meanOf(forces.total, start, end), sd: sdOf(forces.total, start, end) });
}
