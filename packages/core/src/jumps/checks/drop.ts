import { judgeAbove, judgeBelow, judgeFrom, levelsOf, notJudged } from '../../checks/judging.ts';
import { fastContact } from '../metrics/hops.ts';
import { heightFromVelocity, seconds } from '../metrics/measuring.ts';
import { velocityAt } from '../motion.ts';
import type { JumpCheckDefinition } from './check.ts';

/** Was it a drop from the box, and a fast contact? */
export const dropChecks: readonly JumpCheckDefinition[] = [
  {
    id: 'contact_length',
    version: 1,
    title: 'A fast contact',
    finding: 'The contact was long',
    why: 'The index of reactive strength is meant for fast contacts. A long one makes another movement of it.',
    definition: 'Time on the ground between the drop and the take-off. Warn from 0.25 s.',
    source: 'Schmidtbleicher 1992 (boundary of 250 ms, from memory)',
    unit: 's',
    scope: 'trial',
    defaultLimits: { warn: 0.25 },
    kinds: ['drop'],
    judge: (jump, limits) => {
      const [contact] = jump.events.contacts;
      if (contact === undefined) return notJudged('s', 'no-effort');
      const { touchdown: start, takeOff: end } = contact;
      const value = seconds(jump, start, end);
      return judgeFrom(value, levelsOf(limits) ?? {}, 's', { start, end });
    },
  },
  {
    id: 'drop_from_box',
    version: 1,
    title: 'Dropped from the height of the box',
    finding: 'The drop was not that of the box',
    why: 'Who jumps off the box falls from higher, who steps down with bent knees from lower. The fall that was measured is the one that counts.',
    definition:
      'Drop height less height of the box as a share of the box, either way. Warn beyond 15 %. Not judged without the height of the box.',
    source: `McMahon et al. 2021, Biomechanics 1(2):178-189 (drop and box differ); the limit is a proposal of this program`,
    unit: '%',
    scope: 'trial',
    defaultLimits: { warn: 15 },
    kinds: ['drop'],
    judge: (jump, limits) => {
      const { boxHeight } = jump.setup;
      if (boxHeight === undefined || !(boxHeight > 0)) return notJudged('%', 'not-in-file');
      if (!jump.motion.ok) return notJudged('%', 'no-baseline');
      const motion = jump.motion.value;
      const drop = heightFromVelocity(velocityAt(motion, motion.start), jump.gravity);
      const value = 100 * (drop / boxHeight - 1);
      return judgeAbove(
        value,
        levelsOf(limits) ?? {},
        '%',
        { start: motion.start, end: motion.start + 1 },
        undefined,
        Math.abs(value),
      );
    },
  },
  {
    id: 'hops_enough',
    version: 1,
    title: 'Enough fast hops',
    finding: 'Too few fast hops',
    why: 'The value is the mean of the five best hops with a fast contact; with fewer there is none.',
    definition: 'Hops with a contact under 250 ms. Fail under 5, warn under 8.',
    source:
      'Harper et al. 2011, conference paper (five best of ten; from memory); the limits are proposals of this program',
    unit: '1',
    scope: 'trial',
    bound: 'least',
    defaultLimits: { warn: 8, fail: 5 },
    kinds: ['repeated'],
    judge: (jump, limits) => {
      const { contacts } = jump.events;
      const fast = contacts.filter(({ touchdown, takeOff }) => seconds(jump, touchdown, takeOff) < fastContact).length;
      const judged = { start: contacts[0]?.touchdown ?? 0, end: contacts.at(-1)?.nextTouchdown ?? 0 };
      return judgeBelow(fast, levelsOf(limits) ?? {}, '1', judged);
    },
  },
];
