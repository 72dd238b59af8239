import type { DayPlan, PlannedEffort } from '@sthene/contract';
import { defaultMethod, type Protocol, type SetRule, setState, type TrialResult } from '@sthene/core';
import { maximalOf } from './plan.ts';

/** An effort that was done, as far as planning needs it. */
export interface Done {
  readonly kind: PlannedEffort['kind'];
  readonly result: TrialResult;
  /** What holds in the end: the verdict, or a person's decision over it. */
  readonly counts: boolean;
}

/**
 * Efforts still to be done: submaximal ones that are left, then maximal ones until the set is closed, by the same set rule the
 * live engine judges with.
 */
export function remainingOf(
  plan: DayPlan,
  done: readonly Done[],
  protocol: Protocol,
  rule: SetRule = defaultMethod.set,
): PlannedEffort[] {
  const submaximal = plan.efforts.filter(({ kind }) => kind !== 'maximal');
  const warmed = done.filter(({ kind }) => kind !== 'maximal').length;
  const maximal = done.filter(({ kind }) => kind === 'maximal');
  const planned = maximalOf(plan);
  const counting = maximal.filter(({ counts }) => counts).length;
  const set = setState(
    maximal.map(({ result, counts }) => ({
      result,
      maximal: true,
      overruled: counts ? ('counts' as const) : ('does-not-count' as const),
    })),
    { ...rule, closesAfter: Math.min(rule.closesAfter, protocol.maximalTrials.maximum) },
    Math.min(planned, protocol.maximalTrials.maximum),
  );
  const left = planned === 0 || !set.another ? 0 : Math.max(1, planned - counting);
  return left === 0 && planned > 0
    ? []
    : [...submaximal.slice(warmed), ...Array.from({ length: left }, (): PlannedEffort => ({ kind: 'maximal' }))];
}

/** The next effort in words: `Second of three maximal efforts`. */
export function effortWords(plan: DayPlan, done: readonly Done[], next: PlannedEffort | undefined): string {
  if (next === undefined) return 'Nothing left to do';
  if (next.kind !== 'maximal') {
    const share = next.share === undefined ? '' : ` at about ${Math.round(100 * next.share)} %`;
    return `${next.kind === 'familiarisation' ? 'Getting to know the test' : 'Submaximal effort'}${share}`;
  }
  const planned = maximalOf(plan);
  const number = done.filter(({ kind, counts }) => kind === 'maximal' && counts).length + 1;
  if (planned < 2) return 'The maximal effort';
  if (number > planned) return 'One more maximal effort';
  return `${ordinal(number)} of ${count(planned)} maximal efforts`;
}

const ordinals = ['First', 'Second', 'Third', 'Fourth', 'Fifth', 'Sixth'];
const counts = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const ordinal = (n: number) => ordinals[n - 1] ?? `Number ${n}`;
const count = (n: number) => counts[n] ?? String(n);
