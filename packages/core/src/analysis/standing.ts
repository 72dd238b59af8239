import type { SampleSpan } from '../recording/sample.ts';
import { meanOf } from '../signal/index.ts';
import type { Anchor } from './anchor.ts';
import { type EffortSearch, isWhole, leastStanding, standingSearch, standingUnrest } from './effort-search.ts';
import { type WindowTable, windowTable } from './window-table.ts';

/** The quiet level before an effort: Q, where it was found, and the windows looked at (used again for the baseline). */
export interface Standing {
  readonly level: number;
  readonly window: SampleSpan;
  readonly table: WindowTable;
}

/**
 * Finds the standing window with the smallest mean among those that end before the anchor and start at most 10 s before it.
 *
 * A standing window has m_k >= 100 N and s_k <= 15 % of m_k; in a test without body weight every window is one. Windows over
 * open gaps are left out. Undefined when there is none.
 */
export function findStanding(search: EffortSearch, anchor: Anchor): Standing | undefined {
  const { forces, width, weighted } = search;
  const first = Math.ceil(anchor.start - standingSearch * forces.sampleRate);
  const table = windowTable(search, first, anchor.start - width);
  const gaps = forces.gaps.open.length > 0;
  let best = -1;
  let level = Number.POSITIVE_INFINITY;
  for (let i = 0; i < table.mean.length; i++) {
    const mean = table.mean[i] as number;
    if (mean >= level) continue;
    if (weighted && !(mean >= leastStanding && (table.sd[i] as number) <= standingUnrest * mean)) continue;
    if (gaps && !isWhole(forces, table.first + i, width)) continue;
    level = mean;
    best = i;
  }
  if (best < 0) return undefined;
  const start = table.first + best;
  // Taken afresh, so that Q depends on the window alone and not on where the search began.
  return { level: meanOf(forces.total, start, start + width), window: { start, end: start + width }, table };
}
