import { judgeAbove, judgeBelow, judgeFrom, levelsOf, notJudged } from '../../checks/judging.ts';
import { samplesIn, sdOf } from '../../signal/index.ts';
import type { JumpContext } from '../jump-context.ts';
import { fromStanding } from '../kinds.ts';
import { integrate, positionAt } from '../motion.ts';
import { type JumpCheckDefinition, proposal } from './check.ts';

/** How long the force lies within five SD of W after the onset, at its longest: s, and where. */
function longestReturn(
  jump: JumpContext,
  from: number,
): { readonly time: number; readonly start: number; readonly end: number } {
  const { weighing, takeOff } = jump.events;
  const best = { time: 0, start: from, end: from };
  if (!weighing.ok) return best;
  const { mean, sd } = weighing.value;
  let run = 0;
  for (let i = from; i < takeOff; i++) {
    run = Math.abs((jump.forces.total[i] as number) - mean) <= 5 * sd ? run + 1 : 0;
    const time = run / jump.forces.sampleRate;
    if (time > best.time) Object.assign(best, { time, start: i - run + 1, end: i + 1 });
  }
  return best;
}

const sheppard = 'Sheppard and Doyle 2008, J Strength Cond Res 22(2):648-651';

/** First sample after the weighing window with F > W + 5 SD; undefined when there is none before take-off. */
function firstRise(jump: JumpContext): number | undefined {
  const { weighing, takeOff } = jump.events;
  if (!weighing.ok) return undefined;
  const { end, mean, sd } = weighing.value;
  for (let i = end; i < takeOff; i++) if ((jump.forces.total[i] as number) > mean + 5 * sd) return i;
  return undefined;
}

/**
 * Share of W by which a squat jump is unloaded before it pushes, %: 100 (W - smallest F) / W.
 *
 * @param weight W, N
 * @param smallest smallest force before it first exceeds W + 5 SD, N
 * Source: Sheppard and Doyle 2008, J Strength Cond Res 22(2):648-651.
 */
export const unloadShare = (weight: number, smallest: number): number => (100 * (weight - smallest)) / weight;

/** Did the jump begin once, from stillness, and in the way the test asks? */
export const startChecks: readonly JumpCheckDefinition[] = [
  {
    id: 'jump_false_start',
    version: 1,
    title: 'One beginning',
    finding: 'The jump began twice',
    why: 'When the force comes back to body weight for a while after the beginning, the athlete began, stopped and began again: the onset belongs to the first attempt.',
    definition:
      'Longest time after the first sample beyond 5 SD of W, and before take-off, for which F stays within 5 SD of W. Fail from 0.2 s.',
    source: proposal,
    unit: 's',
    scope: 'trial',
    defaultLimits: { fail: 0.2 },
    kinds: fromStanding,
    judge: (jump, limits) => {
      const { weighing, takeOff } = jump.events;
      if (!weighing.ok) return notJudged('s', 'no-baseline');
      if (!jump.onset.ok) return notJudged('s', 'no-onset');
      const { end, mean, sd } = weighing.value;
      let first = end;
      while (first < takeOff && !(Math.abs((jump.forces.total[first] as number) - mean) > 5 * sd)) first++;
      const back = longestReturn(jump, first);
      const marks =
        back.time > 0
          ? [{ at: back.start, force: jump.forces.total[back.start] as number, label: 'back at weight' }]
          : [];
      return judgeFrom(back.time, levelsOf(limits) ?? {}, 's', { start: first, end: takeOff }, marks);
    },
  },
  {
    id: 'squat_jump_dip',
    version: 1,
    title: 'No dip before the squat jump',
    finding: 'A dip before the squat jump',
    why: 'A small dip stores energy and makes the jump a countermovement jump. Observers miss it: of 56 jumps that looked clean 43 were not.',
    definition:
      '100 (W - smallest F before F first exceeds W + 5 SD) / W, from the end of the weighing window on. Warn from 5 %, fail from 10 %.',
    source: `${sheppard} (10 %); 5 % is a proposal of this program`,
    unit: '%',
    scope: 'trial',
    defaultLimits: { warn: 5, fail: 10 },
    kinds: ['squat'],
    judge: (jump, limits) => {
      const { weighing } = jump.events;
      if (!weighing.ok) return notJudged('%', 'no-baseline');
      const rise = firstRise(jump);
      if (rise === undefined) return notJudged('%', 'no-onset');
      const { end, mean } = weighing.value;
      const force = jump.forces.total;
      let at = end;
      for (let i = end; i < rise; i++) if ((force[i] as number) < (force[at] as number)) at = i;
      const value = unloadShare(mean, force[at] as number);
      const marks = [{ at, force: force[at] as number, label: 'lowest' }];
      return judgeFrom(value, levelsOf(limits) ?? {}, '%', { start: end, end: rise + 1 }, marks);
    },
  },
  {
    id: 'squat_jump_dip_depth',
    version: 1,
    title: 'No sinking before the squat jump',
    finding: 'The body sank before the squat jump',
    why: 'A slow dip unloads little but still lowers the body; integrated twice it shows.',
    definition:
      'Deepest position of the centre of mass, from the end of the weighing window to the first F > W + 5 SD and on until it moves upward. Warn beyond 1 cm, fail beyond 5 cm.',
    source: proposal,
    unit: 'cm',
    scope: 'trial',
    defaultLimits: { warn: 1, fail: 5 },
    kinds: ['squat'],
    judge: (jump, limits) => {
      const { weighing, takeOff } = jump.events;
      if (!weighing.ok) return notJudged('cm', 'no-baseline');
      const { end, mean } = weighing.value;
      if (!(mean > 0)) return notJudged('cm', 'no-body-weight');
      const motion = integrate(jump.forces, end, takeOff + 1, mean, jump.gravity, undefined);
      let at = end;
      for (let i = end; i <= takeOff; i++) if (positionAt(motion, i) < positionAt(motion, at)) at = i;
      const value = -100 * positionAt(motion, at);
      return judgeAbove(value, levelsOf(limits) ?? {}, 'cm', { start: end, end: at + 1 });
    },
  },
  {
    id: 'squat_jump_hold',
    version: 1,
    title: 'Hold was still',
    finding: 'The hold was not still',
    why: 'A squat that trembles or creeps is neither a weight nor a start from rest.',
    definition: 'SD of F over the 0.5 s before the onset, as a share of W. Warn above 2 %.',
    source: proposal,
    unit: '%',
    scope: 'trial',
    defaultLimits: { warn: 2 },
    kinds: ['squat'],
    judge: (jump, limits) => {
      if (!jump.onset.ok) return notJudged('%', 'no-onset');
      if (!jump.bodyWeight.ok || !(jump.bodyWeight.value.value > 0)) return notJudged('%', 'no-body-weight');
      const end = Math.floor(jump.onset.value.index);
      const start = end - samplesIn(0.5, jump.forces.sampleRate);
      if (start < jump.events.span.start || end - start < 2) return notJudged('%', 'too-short');
      const value = (100 * sdOf(jump.forces.total, start, end)) / jump.bodyWeight.value.value;
      return judgeAbove(value, levelsOf(limits) ?? {}, '%', { start, end });
    },
  },
  {
    id: 'no_countermovement',
    version: 1,
    title: 'A countermovement was made',
    finding: 'There is no countermovement',
    why: 'Without a way down it is a squat jump, and its numbers belong to another test.',
    definition: 'Depth of the centre of mass below standing before the push. Fail under 3 cm.',
    source: proposal,
    unit: 'cm',
    scope: 'trial',
    bound: 'least',
    defaultLimits: { fail: 3 },
    kinds: ['countermovement'],
    judge: (jump, limits) => {
      if (!jump.motion.ok) return notJudged('cm', 'no-onset');
      const value = -100 * (jump.events.lowestPosition?.value ?? 0);
      const judged = { start: jump.motion.value.start, end: jump.events.takeOff };
      return judgeBelow(value, levelsOf(limits) ?? {}, 'cm', judged);
    },
  },
  {
    id: 'jump_early',
    version: 1,
    title: 'Cue awaited before the jump',
    finding: 'The jump began before the cue',
    why: 'A jump before the cue was not the jump that was asked for; the quiet second before the cue is no longer quiet.',
    definition: 'Time from the onset to the cue. Warn above 0.1 s. Not judged without a cue.',
    source: proposal,
    unit: 's',
    scope: 'trial',
    defaultLimits: { warn: 0.1 },
    kinds: fromStanding,
    judge: (jump, limits) => {
      if (jump.cue === undefined) return notJudged('s', 'no-cue');
      if (!jump.onset.ok) return notJudged('s', 'no-onset');
      const value = (jump.cue - jump.onset.value.index) / jump.forces.sampleRate;
      return judgeAbove(value, levelsOf(limits) ?? {}, 's');
    },
  },
];
