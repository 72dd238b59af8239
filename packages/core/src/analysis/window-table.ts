import { slidingStatistics } from '../signal/index.ts';
import type { EffortSearch } from './effort-search.ts';

/** Mean m_k and SD s_k of every window of w samples with start k in [first, last]; element i belongs to k = first + i. */
export interface WindowTable {
  readonly first: number;
  readonly last: number;
  readonly mean: Float64Array;
  readonly sd: Float64Array;
}

/** Table of the windows that start in [first, last], cut to the span; empty when none fits. */
export function windowTable({ forces, span, width }: EffortSearch, first: number, last: number): WindowTable {
  const from = Math.max(span.start, first);
  const to = Math.min(last, span.end - width);
  if (to < from) return { first: from, last: from - 1, mean: new Float64Array(0), sd: new Float64Array(0) };
  return { first: from, last: to, ...slidingStatistics(forces.total, width, from, to + width) };
}
