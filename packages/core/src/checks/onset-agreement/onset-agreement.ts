import { valueAt } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** The rule that a method's own is held against, and the one that stands in where it is that rule itself. */
const other = 'percent-weight-5';
const standIn = 'local-line';

/** Does another, published onset rule point at the same instant as the method's own? */
export const onsetAgreement: CheckDefinition = {
  id: 'onset_agreement',
  version: 1,
  title: 'Onset rules agree',
  finding: 'The start of the pull is unclear',
  why: 'When two rules that should agree place the start of the pull far apart, the start itself is unclear, and with it every early force, rate and impulse.',
  definition:
    "Time between the onset by the method's own rule (also where a person placed another) and the one by percent-weight-5; by local-line where percent-weight-5 is the method's own. Both must find one. Warn above 0.1 s.",
  source:
    "Rule compared with: Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473; the limit is a proposal of this program",
  unit: 's',
  scope: 'rates',
  defaultLimits: { warn: 0.1 },
  judge(trial, limits) {
    const own = trial.method.onset.rule;
    const onsets = trial.onsets();
    const marks: { at: number; force: number; label: string }[] = [];
    for (const rule of [own, own === other ? standIn : other]) {
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
