import { lack } from '../../outcome.ts';
import { searchBackward } from '../backward-search.ts';
import type { OnsetRule } from '../rule.ts';

const fixedForce = (newtons: number): OnsetRule => {
  const id = `fixed-newton-${newtons}`;
  return {
    id,
    version: 1,
    title: `Baseline + ${newtons} N`,
    definition: `The sample after the last one, seen backward from the half rise, with F <= B + ${newtons} N.`,
    source:
      newtons === 75
        ? "Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473 (75 N); backward search of our own"
        : 'Older pull studies (threshold from memory); backward search of our own',
    automatic: true,
    find: (input) => (input.forces.unit === 'N' ? searchBackward(input, id, newtons) : lack('not-defined')),
  };
};

/** 20, 40, 50 and 75 N above the baseline. Reason of their own: `not-defined` where the curve is not in newtons. */
export const fixedForceRules: readonly OnsetRule[] = [20, 40, 50, 75].map(fixedForce);
