import { judgeAbove, levelsOf, notJudged } from '../../checks/judging.ts';
import { samplesIn, slidingMean } from '../../signal/index.ts';
import { everyKind } from '../kinds.ts';
import { type JumpCheckDefinition, proposal } from './check.ts';

/** Did the jump happen on the legs that the test asks for? */
export const legChecks: readonly JumpCheckDefinition[] = [
  {
    id: 'jump_other_foot',
    version: 1,
    title: 'Other foot off the ground in the push',
    finding: 'The other foot pushed too',
    why: 'A jump on one leg is only that when the other plate stays empty until take-off.',
    definition:
      'Largest 20 ms mean of the other side from onset to take-off, tests on one leg only. Fail above 20 N. Not judged with one side measured.',
    source: proposal,
    unit: 'N',
    scope: 'trial',
    defaultLimits: { fail: 20 },
    kinds: everyKind,
    judge: (jump, limits) => {
      const { limbs } = jump.protocol;
      if (limbs !== 'left' && limbs !== 'right') return notJudged('N', 'not-for-this-test');
      const other = limbs === 'left' ? jump.forces.right : jump.forces.left;
      if (other === undefined) return notJudged('N', 'one-side-only');
      if (!jump.onset.ok) return notJudged('N', 'no-onset');
      const start = Math.ceil(jump.onset.value.index);
      const end = jump.events.takeOff;
      const width = Math.max(1, samplesIn(0.02, jump.forces.sampleRate));
      if (end - start < width) return notJudged('N', 'too-short');
      const means = slidingMean(other, width, start, end);
      const value = means.reduce((most, one) => Math.max(most, one), Number.NEGATIVE_INFINITY);
      return judgeAbove(value, levelsOf(limits) ?? {}, 'N', { start, end });
    },
  },
];
