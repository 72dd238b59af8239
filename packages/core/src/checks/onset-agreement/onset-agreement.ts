import { valueAt } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

const compared = ['five-sd', 'forward-five-sd', 'percent-weight-5'] as const;

/** Do different published onset rules point at the same instant? */
export const onsetAgreement: CheckDefinition = {
  id: 'onset_agreement',
  version: 1,
  title: 'Onset rules agree',
  why: 'When rules that should agree place the start of the pull far apart, the start itself is unclear, and with it every early force, rate and impulse.',
  definition:
    'Latest minus earliest onset over the rules five-sd, forward-five-sd and percent-weight-5, of those that found one; at least two are needed. Warn above 0.1 s.',
  source:
    "Rules compared: Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473; the limit is a proposal of this program",
  unit: 's',
  scope: 'rates',
  defaultLimits: { warn: 0.1 },
  judge(trial, limits) {
    const onsets = trial.onsets();
    const marks: { at: number; force: number; label: string }[] = [];
    for (const rule of compared) {
      const onset = onsets[rule];
      if (!onset?.ok) continue;
      const at = onset.value.index;
      marks.push({ at, force: valueAt(trial.forces.total, at), label: rule });
    }
    if (marks.length < 2) return notJudged('s', 'no-onset');
    const instants = marks.map((mark) => mark.at);
    const earliest = Math.min(...instants);
    const latest = Math.max(...instants);
    const judged = { start: earliest, end: latest + 1 };
    if (hasOpenGap(trial, judged)) return notJudged('s', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('s', 'no-body-weight', judged);
    return judgeAbove((latest - earliest) / trial.forces.sampleRate, levels, 's', judged, marks);
  },
};
