import type { CheckResult } from '../../checks/check.ts';
import { judgeAbove, levelsOf, notJudged } from '../../checks/judging.ts';
import type { WeighingWindow } from '../events.ts';
import type { JumpContext } from '../jump-context.ts';
import { everyKind } from '../kinds.ts';
import { type JumpCheckDefinition, proposal } from './check.ts';

const asShare = (
  jump: JumpContext,
  limits: Readonly<Record<string, number>>,
  unit: string,
  of: (window: WeighingWindow) => number,
): CheckResult => {
  const { weighing } = jump.events;
  if (!weighing.ok) return notJudged(unit, 'no-baseline');
  const window = weighing.value;
  if (!(window.mean > 0)) return notJudged(unit, 'no-body-weight');
  const value = (100 * of(window)) / window.mean;
  const judged = { start: window.start, end: window.end };
  return judgeAbove(value, levelsOf(limits) ?? {}, unit, judged, undefined, Math.abs(value));
};

const source = `One quiet second: Owen et al. 2014, J Strength Cond Res 28(6):1552-1558; limits are proposals of this program`;

/** Was the quiet second quiet enough to weigh? Three questions, each with its number. */
export const weighingChecks: readonly JumpCheckDefinition[] = [
  {
    id: 'weighing_window',
    version: 1,
    title: 'A quiet second to weigh in',
    finding: 'No quiet second to weigh in',
    why: 'Height, velocity and power come from what the force is above body weight. Without a quiet second body weight is a guess.',
    definition:
      'Whether a window of one second with a mean of 100 N or more and an SD of at most 5 % of it was found; 0 when it was, 1 when not. Fail at 1.',
    source: proposal,
    unit: '1',
    scope: 'trial',
    defaultLimits: { fail: 0 },
    kinds: everyKind,
    judge: (jump, limits) => {
      const { weighing, span } = jump.events;
      const judged = weighing.ok ? { start: weighing.value.start, end: weighing.value.end } : span;
      return judgeAbove(weighing.ok ? 0 : 1, levelsOf(limits) ?? {}, '1', judged);
    },
  },
  {
    id: 'weighing_steady',
    version: 1,
    title: 'Still while weighed',
    finding: 'Not still while weighed',
    why: 'An error of 1 % in body weight changes the height of a jump by about 9 %.',
    definition: 'SD of F over the weighing window as a share of W. Fail above 1 %.',
    source,
    unit: '%',
    scope: 'trial',
    defaultLimits: { fail: 1 },
    kinds: everyKind,
    judge: (jump, limits) => asShare(jump, limits, '%', ({ sd }) => sd),
  },
  {
    id: 'weighing_slope',
    version: 1,
    title: 'Level while weighed',
    finding: 'The force drifted while weighed',
    why: 'A weight that drifts is not yet, or no longer, the weight: the athlete sways or the plates warm up.',
    definition:
      'Slope of the least-squares line through the weighing window as a share of W for each second, either way. Fail beyond 0.5 %.',
    source,
    unit: '%',
    scope: 'trial',
    defaultLimits: { fail: 0.5 },
    kinds: everyKind,
    judge: (jump, limits) => asShare(jump, limits, '%', ({ slope }) => slope),
  },
  {
    id: 'weighing_halves',
    version: 1,
    title: 'Both halves weigh the same',
    finding: 'The two halves of the weighing differ',
    why: 'Two half seconds that disagree say that one of them is not standing still.',
    definition:
      'Mean of the second half of the weighing window less that of the first, as a share of W, either way. Fail beyond 0.25 %.',
    source,
    unit: '%',
    scope: 'trial',
    defaultLimits: { fail: 0.25 },
    kinds: everyKind,
    judge: (jump, limits) => asShare(jump, limits, '%', ({ halves }) => halves),
  },
  {
    id: 'weight_agreement',
    version: 1,
    title: 'Weighs what it weighed before',
    finding: 'Weighs something else than before',
    why: 'Body weight does not change within a session. Another weight means another load, another person, a hand on the rail or a moved zero.',
    definition:
      'W of this jump against the weighing of the session, as a share of the latter, either way. Warn beyond 0.5 %.',
    source: proposal,
    unit: '%',
    scope: 'trial',
    defaultLimits: { warn: 0.5 },
    kinds: everyKind,
    judge: (jump, limits) => {
      const { weighing } = jump.events;
      if (jump.known?.from !== 'weighing' || !(jump.known.value > 0)) return notJudged('%', 'no-body-weight');
      if (!weighing.ok) return notJudged('%', 'no-baseline');
      const value = 100 * (weighing.value.mean / jump.known.value - 1);
      const judged = { start: weighing.value.start, end: weighing.value.end };
      return judgeAbove(value, levelsOf(limits) ?? {}, '%', judged, undefined, Math.abs(value));
    },
  },
];
