import { faultById, type Severity, type Verdict } from '@sthene/core';
import type { PlannedPull } from './plan.ts';

/** Truth and verdict of one pull. */
export interface ScoredPull {
  readonly kind: string;
  readonly good: boolean;
  readonly seed: number;
  readonly bodyMass: number;
  readonly plateNoise: number;
  readonly pace: string;
  readonly form: string;
  readonly breathing: number;
  readonly severity: Severity;
  /** The fault is so small that permitted sway can hide it. */
  readonly marginal: boolean;
  readonly verdict: Verdict;
  /** Ids of the checks that warned or failed, or the reason why there was nothing to judge. */
  readonly raised: readonly string[];
  /** Found minus true onset, ms; null when no onset was found. */
  readonly onsetError: number | null;
}

/** Whether the verdict is right for what was pulled. */
export function isRight(pull: ScoredPull): boolean {
  if (pull.good) return pull.verdict === 'counts';
  return pull.verdict !== 'counts' && faultById(pull.kind).expected.includes(pull.verdict);
}

export const isMarginal = (kind: PlannedPull['kind'], severity: Severity): boolean =>
  !kind.good && (faultById(kind.id).marginal?.when(severity) ?? false);

/** Counts of verdicts in a group of pulls. */
export interface Tally {
  readonly pulls: number;
  readonly counts: number;
  readonly lookAgain: number;
  readonly repeat: number;
  readonly right: number;
}

export function tally(pulls: readonly ScoredPull[]): Tally {
  const of = (verdict: Verdict): number => pulls.filter((pull) => pull.verdict === verdict).length;
  return {
    pulls: pulls.length,
    counts: of('counts'),
    lookAgain: of('look-again'),
    repeat: of('repeat'),
    right: pulls.filter(isRight).length,
  };
}

/** How far found onsets lie from true ones, ms; a pull without an onset lies beyond every limit. */
export interface OnsetScore {
  readonly pulls: number;
  readonly missing: number;
  /** Median of the signed error. */
  readonly bias: number;
  /** Median and 95th percentile of its size. */
  readonly median: number;
  readonly percentile95: number;
  /** Share of pulls with an error of at most 20 ms. */
  readonly within20: number;
}

export function onsetScore(pulls: readonly ScoredPull[]): OnsetScore {
  const errors = pulls.flatMap((pull) => (pull.onsetError === null ? [] : [pull.onsetError]));
  const sizes = errors.map(Math.abs);
  return {
    pulls: pulls.length,
    missing: pulls.length - errors.length,
    bias: quantile(errors, 0.5),
    median: quantile(sizes, 0.5),
    percentile95: quantile(sizes, 0.95),
    within20: sizes.filter((size) => size <= 20).length / pulls.length,
  };
}

/** Quantile by linear interpolation between order statistics (Hyndman and Fan 1996, type 7). */
export function quantile(values: readonly number[], share: number): number {
  if (values.length === 0) throw new Error('a quantile needs at least one value');
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below]! + (at - below) * (sorted[above]! - sorted[below]!);
}

/** How often each check warned or failed in a group, most often first. */
export function raisedBy(pulls: readonly ScoredPull[]): readonly (readonly [check: string, times: number])[] {
  const counts = new Map<string, number>();
  for (const pull of pulls) for (const id of pull.raised) counts.set(id, (counts.get(id) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
}

/** The three targets and what was reached. */
export interface Targets {
  readonly onsetWithin20: { readonly reached: number; readonly target: number; readonly met: boolean };
  readonly badCounted: { readonly reached: number; readonly target: number; readonly met: boolean };
  readonly goodRefused: { readonly reached: number; readonly target: number; readonly met: boolean };
}

/** Onset on plates of up to 1 N noise; bad pulls without the marginal ones; good pulls of every sort. */
export function targets(pulls: readonly ScoredPull[]): Targets {
  const good = pulls.filter((pull) => pull.good);
  const bad = pulls.filter((pull) => !pull.good && !pull.marginal);
  const quietGood = good.filter((pull) => pull.plateNoise <= 1);
  const onset = quietGood.length === 0 ? 0 : onsetScore(quietGood).within20;
  const badCounted = bad.filter((pull) => pull.verdict === 'counts').length / bad.length;
  const goodRefused = good.filter((pull) => pull.verdict !== 'counts').length / good.length;
  return {
    onsetWithin20: { reached: onset, target: 0.95, met: onset >= 0.95 },
    badCounted: { reached: badCounted, target: 0.02, met: badCounted < 0.02 },
    goodRefused: { reached: goodRefused, target: 0.05, met: goodRefused < 0.05 },
  };
}
