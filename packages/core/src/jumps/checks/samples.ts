import { judgeAbove, judgeBelow, levelsOf, notJudged } from '../../checks/judging.ts';
import type { SampleSpan } from '../../recording/sample.ts';
import { touchesGap } from '../../signal/index.ts';
import type { JumpContext } from '../jump-context.ts';
import { everyKind } from '../kinds.ts';
import { landingSpan } from '../metrics/landing.ts';
import { type JumpCheckDefinition, proposal } from './check.ts';

/** From the weighing window, where it lies before, to the end of the last landing. */
export function judgedSpan(jump: JumpContext): SampleSpan {
  const { weighing, contacts, takeOff, touchdown } = jump.events;
  const first = contacts[0]?.touchdown ?? (jump.onset.ok ? Math.ceil(jump.onset.value.index) : takeOff);
  const start = weighing.ok && weighing.value.place === 'before' ? weighing.value.start : first;
  const last = Math.max(touchdown, contacts.at(-1)?.nextTouchdown ?? 0, landingSpan(jump).end);
  return { start: Math.min(start, first), end: Math.min(last + 1, jump.forces.sampleCount) };
}

function missingIn(gaps: readonly SampleSpan[], span: SampleSpan, rate: number): number {
  let longest = 0;
  for (const gap of gaps) {
    if (gap.end <= span.start || gap.start >= span.end) continue;
    longest = Math.max(longest, (1000 * (gap.end - gap.start)) / rate);
  }
  return longest;
}

/** Are the samples whole, inside the range, and close enough together? */
export const sampleChecks: readonly JumpCheckDefinition[] = [
  {
    id: 'jump_saturation',
    version: 1,
    title: 'Within plate range, landing included',
    finding: 'A plate reached its limit in the jump',
    why: 'Landings reach several body weights. A plate at the end of its range cuts the peak off, and what is integrated over it is wrong.',
    definition:
      'Number of samples, per plate and before any filter, from the weighing window to the end of the landing, at or above 99.5 % of the upper limit of the plate. Not judged where no plate says its range. Fail from the first.',
    source: proposal,
    unit: '1',
    scope: 'trial',
    defaultLimits: { fail: 0, shareOfRange: 0.995 },
    kinds: everyKind,
    judge: (jump, limits) => {
      const judged = judgedSpan(jump);
      const ranged = jump.unfiltered.plates.filter(({ range }) => range !== undefined);
      if (ranged.length === 0) return notJudged('1', 'not-in-file', judged);
      if (touchesGap(jump.forces, judged.start, judged.end - 1)) return notJudged('1', 'gap', judged);
      let count = 0;
      const marks: { at: number; force: number; label: string }[] = [];
      for (const { name, force, range } of ranged) {
        const level = (limits.shareOfRange ?? 0.995) * (range?.[1] ?? Number.POSITIVE_INFINITY);
        let first = -1;
        for (let i = judged.start; i < judged.end; i++) {
          if ((force[i] as number) < level) continue;
          if (first < 0) first = i;
          count++;
        }
        if (first >= 0) marks.push({ at: first, force: force[first] as number, label: name });
      }
      return judgeAbove(count, levelsOf(limits) ?? {}, '1', judged, marks);
    },
  },
  {
    id: 'jump_gap',
    version: 1,
    title: 'No samples missing in the jump',
    finding: 'Samples are missing in the jump',
    why: 'Velocity is summed up over every sample of the push. A missing piece of it is missing in every number.',
    definition:
      'Longest piece of missing samples, ms. Between the beginning of the jump (of a drop from a box on a plate: the stand on it) and take-off one of more than 2 ms fails; elsewhere, from the weighing window to the landing, one of more than 5 ms warns.',
    source: proposal,
    unit: 'ms',
    scope: 'trial',
    defaultLimits: { warn: 5, fail: 2 },
    kinds: everyKind,
    judge: (jump, limits) => {
      const judged = judgedSpan(jump);
      const { gaps, sampleRate } = jump.forces;
      const all = [...gaps.open, ...gaps.filled];
      const { weighing, contacts } = jump.events;
      const begun = contacts[0]?.touchdown ?? (jump.onset.ok ? jump.onset.value.index : judged.start);
      // From a box on a plate all is summed up from the stand on it.
      const first = jump.drop !== undefined && weighing.ok ? weighing.value.start : begun;
      const takeOff = contacts.at(-1)?.takeOff ?? jump.events.takeOff;
      const inPush = missingIn(all, { start: Math.floor(first), end: takeOff + 1 }, sampleRate);
      const anywhere = missingIn(all, judged, sampleRate);
      const { warn, fail } = limits;
      // The push is held to the stricter limit, so a long gap there never passes as one elsewhere.
      if (fail !== undefined && inPush > fail) return judgeAbove(inPush, { fail }, 'ms', judged);
      return judgeAbove(anywhere, warn === undefined ? {} : { warn }, 'ms', judged);
    },
  },
  {
    id: 'jump_sample_rate',
    version: 1,
    title: 'Sampled fast enough for a jump',
    finding: 'Too few samples a second for a jump',
    why: 'Heights fall with the sample rate: by 0.1 to 0.2 cm at 500 Hz, 0.5 to 0.6 cm at 200 Hz and 1.3 to 1.5 cm at 100 Hz against 1000 Hz.',
    definition: 'Samples per second of the analysed grid. Warn below 500 Hz, fail below 200 Hz.',
    source: 'Owen et al. 2014, J Strength Cond Res 28(6):1552-1558 (1000 Hz); the limits are proposals of this program',
    unit: 'Hz',
    scope: 'trial',
    bound: 'least',
    defaultLimits: { warn: 500, fail: 200 },
    kinds: everyKind,
    judge: (jump, limits) => judgeBelow(jump.forces.sampleRate, levelsOf(limits) ?? {}, 'Hz'),
  },
];
