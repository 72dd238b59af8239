import type { DayPlan, PlannedEffort } from '@sthene/contract';
import { type Protocol, protocolRegistry, type RunningRules, runningRules } from '@sthene/core';
import { problems } from '../../server/problem-error.ts';

/** The protocol of a test, or a refusal. */
export function protocolOf(test: string): Protocol {
  const protocol = protocolRegistry.get(test);
  if (protocol === undefined) throw problems.notFound('test');
  return protocol;
}

/** A plan as given, or the one the protocol proposes. */
export function planOf(test: string | DayPlan): DayPlan {
  if (typeof test !== 'string') {
    protocolOf(test.test);
    if (test.rest.maximum <= test.rest.minimum)
      throw problems.invalid('The longest rest must be longer than the shortest.');
    return test;
  }
  const protocol = protocolOf(test);
  const rules = runningRules(protocol);
  return {
    test,
    efforts: [
      ...rules.warmUp.map(({ share }): PlannedEffort => ({ kind: 'submaximal', share })),
      ...Array.from({ length: protocol.maximalTrials.planned }, (): PlannedEffort => ({ kind: 'maximal' })),
    ],
    rest: { minimum: rules.rest.minimum, maximum: rules.rest.maximum },
  };
}

/** The running rules of a plan: its submaximal efforts and rests over the protocol's own. */
export function rulesOf(plan: DayPlan): RunningRules {
  const rules = runningRules(protocolOf(plan.test));
  const known = rules.warmUp.at(-1);
  return {
    ...rules,
    warmUp: plan.efforts.flatMap(({ kind, share }) => {
      if (kind === 'maximal') return [];
      const like = rules.warmUp.find((one) => one.share === share);
      return [like ?? { share: share ?? 0.5, band: known?.band ?? 0.15, weightShare: known?.weightShare ?? 1.5 }];
    }),
    rest: {
      ...rules.rest,
      afterSubmaximal: Math.min(rules.rest.afterSubmaximal, plan.rest.minimum),
      minimum: plan.rest.minimum,
      maximum: plan.rest.maximum,
    },
  };
}

export const maximalOf = (plan: DayPlan): number => plan.efforts.filter(({ kind }) => kind === 'maximal').length;
