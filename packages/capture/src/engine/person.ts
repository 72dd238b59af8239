import {
  type Protocol,
  type RunningRules,
  type SetRule,
  type SetState,
  type SetTrial,
  type SubmaximalEffort,
  setRuleOf,
  setState,
} from '@sthene/core';
import type { Clearance, TurnPlan } from './config.ts';
import type { EffortKind, RememberedTrial, Target } from './trial.ts';

/** What the day knows of one athlete in this test. */
export interface Person {
  readonly ref: string;
  plan: TurnPlan;
  readonly trials: { trial: RememberedTrial; decided?: 'counts' | 'does-not-count' }[];
  warmUpDone: number;
  /** The rest was too long: a submaximal effort comes before the next maximal one. */
  warmUpAgain: boolean;
  painStopped: boolean;
  /** A person ended the set of maximal efforts. */
  finished: boolean;
  /** Best gross peak of a maximal effort that counts, N. */
  best: number | undefined;
  lastBodyWeight: number | undefined;
  rest: Rest | undefined;
}

export interface Rest {
  readonly since: number;
  readonly minimum: number;
  readonly maximum: number;
  over: boolean;
  tooLong: boolean;
}

export const newPerson = (plan: TurnPlan): Person => ({
  ref: plan.person,
  plan,
  trials: [],
  warmUpDone: plan.warmUpDone ?? 0,
  warmUpAgain: false,
  painStopped: plan.painStopped ?? false,
  finished: false,
  best: plan.ownBest,
  lastBodyWeight: plan.lastBodyWeight,
  rest: undefined,
});

/** The strictest clearance that fits a test; a test on both limbs needs both. */
export function clearanceOf(clearances: readonly Clearance[], protocol: Protocol): Clearance['level'] {
  let level: Clearance['level'] = 'cleared';
  for (const entry of clearances) {
    if (entry.test !== undefined && entry.test !== protocol.id) continue;
    const { limbs } = protocol;
    if (entry.limb !== undefined && (limbs === 'left' || limbs === 'right') && entry.limb !== limbs) continue;
    if (entry.level === 'not-cleared') return 'not-cleared';
    if (entry.level === 'submaximal-only') level = 'submaximal-only';
  }
  return level;
}

/** The effort that comes next, or why there is none. */
export type NextEffort =
  | { readonly kind: 'maximal' }
  | { readonly kind: 'submaximal'; readonly effort: SubmaximalEffort }
  | { readonly kind: 'none'; readonly because: 'not-cleared' | 'submaximal-only' | 'pain-stopped' | 'complete' };

export function nextEffort(person: Person, protocol: Protocol, rules: RunningRules, rule: SetRule): NextEffort {
  const level = clearanceOf(person.plan.clearances, protocol);
  if (level === 'not-cleared') return { kind: 'none', because: 'not-cleared' };
  const complete = person.finished || !setOf(person, protocol, rules, rule).another;
  const planned = rules.warmUp[person.warmUpDone];
  // Without a maximal effort the submaximal ones are all there is.
  if (planned !== undefined && (!complete || (plannedOf(person, protocol) === 0 && !person.finished)))
    return { kind: 'submaximal', effort: planned };
  if (level === 'submaximal-only') return { kind: 'none', because: 'submaximal-only' };
  if (person.painStopped) return { kind: 'none', because: 'pain-stopped' };
  if (complete) return { kind: 'none', because: 'complete' };
  const again = rules.warmUp.at(-1);
  if (person.warmUpAgain && again !== undefined) return { kind: 'submaximal', effort: again };
  return { kind: 'maximal' };
}

/** Maximal efforts in the form the set rule judges. What the engine holds against one keeps it from counting by itself. */
export const setTrials = (person: Person): SetTrial[] =>
  person.trials.map(({ trial, decided }) => ({
    result: trial.result,
    maximal: trial.effort === 'maximal',
    overruled: decided ?? (trial.verdict === 'counts' ? 'counts' : 'does-not-count'),
  }));

/** Where the set of maximal efforts stands, under the rule as it holds for this athlete. */
export function setOf(person: Person, protocol: Protocol, rules: RunningRules, rule: SetRule): SetState {
  const own = setRuleOf(rule, protocol, rules, person.plan.minor);
  return setState(setTrials(person), own, plannedOf(person, protocol));
}

const plannedOf = ({ plan }: Person, { maximalTrials }: Protocol): number =>
  Math.min(plan.maximalTrials ?? maximalTrials.planned, maximalTrials.maximum);

/** Gross force a maximal effort of this athlete is expected to reach. */
export const expectedBest = (best: number | undefined, weightShare: number, weight: number): number =>
  best ?? weight * (1 + weightShare);

/**
 * The band a submaximal effort aims at: a share of the way from standing to the own best, or to what a first effort may reach.
 *
 * @param best gross force, where there is one
 */
export function targetOf(best: number | undefined, effort: SubmaximalEffort, weight: number): Target {
  const rise = effort.share * (expectedBest(best, effort.weightShare, weight) - weight);
  return {
    share: effort.share,
    aim: weight + rise,
    low: weight + rise * (1 - effort.band),
    high: weight + rise * (1 + effort.band),
    from: best === undefined ? 'body-weight' : 'own-best',
  };
}

export const bestOf = (person: Person): number | undefined => {
  let best = person.plan.ownBest;
  for (const { result, maximal, overruled } of setTrials(person)) {
    const peak = result.metrics.peak_force;
    if (!maximal || overruled !== 'counts' || peak === undefined || !('value' in peak)) continue;
    if (best === undefined || peak.value > best) best = peak.value;
  }
  return best;
};

export const kindOf = (next: NextEffort): EffortKind | undefined => (next.kind === 'none' ? undefined : next.kind);
