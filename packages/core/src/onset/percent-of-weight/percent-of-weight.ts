import { searchBackward } from '../backward-search.ts';
import type { OnsetRule } from '../rule.ts';

const percentOfWeight = (percent: number): OnsetRule => {
  const id = `percent-weight-${percent}`;
  return {
    id,
    version: 1,
    title: `Baseline + ${percent} % of body weight`,
    definition: `The sample after the last one, seen backward from the half rise, with F <= B + ${percent / 100} W.`,
    source: "Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473; backward search of our own",
    automatic: true,
    find: (input) =>
      input.bodyWeight.ok
        ? searchBackward(input, id, (percent / 100) * input.bodyWeight.value.value)
        : input.bodyWeight,
  };
};

/** 2.5, 5 and 10 % of body weight above the baseline. Reason of their own: the body weight's. */
export const percentOfWeightRules: readonly OnsetRule[] = [2.5, 5, 10].map(percentOfWeight);
