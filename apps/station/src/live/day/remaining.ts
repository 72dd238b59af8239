import type { DayPlan, PlannedEffort } from '@sthene/contract';
import {
  defaultMethod,
  type Protocol,
  type ResultInShort,
  type RunningRules,
  type SetRule,
  setRuleOf,
  setState,
  stopReason,
} from '@sthene/core';
import { maximalOf } from './plan.ts';

/** An effort that was done, as far as planning needs it. */
export interface Done {
  readonly kind: PlannedEffort['kind'];
  readonly result: ResultInShort;
  /** What holds in the end: the verdict, or a person's decision over it. */
  readonly counts: boolean;
  /** How a live effort ended; absent for others. */
  readonly ended?: string;
}

/** A submaximal effort that was made to its end. One that was cut off warmed nobody up; the engine asks for it again. */
export const isWarmUp = ({ kind, ended = 'released' }: Pick<Done, 'kind' | 'ended'>): boolean =>
  kind !== 'maximal' && isWhole(ended);

/** An effort that was made to its end; a jump is, also where nobody stood still after it. */
export const isWhole = (ended: string): boolean => ended === 'released' || ended === 'not-still';

/**
 * Efforts still to be done: submaximal ones that are left, then maximal ones until the set is closed, by the same set rule the
 * live engine judges with. Where the protocol's stop rule ends the set, no maximal one is left.
 */
export function remainingOf(
  plan: DayPlan,
  done: readonly Done[],
  protocol: Protocol,
  rules: RunningRules,
  minor: boolean,
  rule: SetRule = defaultMethod.set,
): PlannedEffort[] {
  const submaximal = plan.efforts.filter(({ kind }) => kind !== 'maximal');
  const warmed = done.filter(isWarmUp).length;
  const maximal = done.filter(({ kind }) => kind === 'maximal');
  const planned = maximalOf(plan);
  const counting = maximal.filter(({ counts }) => counts).length;
  const trials = maximal.map(({ result, counts }) => ({
    result,
    maximal: true,
    overruled: counts ? ('counts' as const) : ('does-not-count' as const),
  }));
  const set = setState(
    trials,
    setRuleOf(rule, protocol, rules, minor),
    Math.min(planned, protocol.maximalTrials.maximum),
  );
  const stopped = rules.stop.closes === true && stopReason(trials, rules.stop) !== undefined;
  const left = planned === 0 || !set.another || stopped ? 0 : Math.max(1, planned - counting);
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

/** True when nothing is left to do and fewer maximal efforts count than the protocol asks for. */
export function isIncomplete(
  plan: DayPlan,
  done: readonly Done[],
  remaining: readonly PlannedEffort[],
  { maximalTrials }: Protocol,
): boolean {
  const counting = done.filter(({ kind, counts }) => kind === 'maximal' && counts).length;
  return maximalOf(plan) > 0 && done.length > 0 && remaining.length === 0 && counting < maximalTrials.minimum;
}
