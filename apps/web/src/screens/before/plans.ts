import type { BeforeView } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { scaleText, valueText } from '../athletes/values.ts';

export type Plan = BeforeView['plans'][number];

export const planOf = (plans: readonly Plan[], trials: number, sessions: number): Plan | undefined =>
  plans.find((one) => one.trials === trials && one.sessions === sessions);

/** The plan with the fewest efforts that brings the gain to half of what `from` confirms. */
export function halfOf(plans: readonly Plan[], from: Plan): Plan | undefined {
  return plans
    .filter(({ confirmable }) => confirmable <= from.confirmable / 2)
    .toSorted((a, b) => a.trials * a.sessions - b.trials * b.sessions || a.sessions - b.sessions)[0];
}

/** A gain on the scale it is judged on; with what it is of the squad's usual value where that is known. */
export function gainText(value: number, view: BeforeView): string {
  const text = scaleText(value, view);
  if (view.scale !== 'log' || view.typical === undefined) return text;
  return `${text} (${valueText(view.typical * Math.expm1(value / 100), view.metric.unit)})`;
}

export const trialsText = (trials: number): string => numberText(trials, 1);
