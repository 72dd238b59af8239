import { valueAt } from '../../signal/index.ts';
import type { CheckDefinition } from '../check.ts';
import { hasOpenGap, judgeAbove, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Did the athlete start before the cue? */
export const earlyPull: CheckDefinition = {
  id: 'early_pull',
  version: 1,
  title: 'Waited for cue',
  finding: 'The pull began before the cue',
  why: 'A start ahead of the cue often comes from tension that was building up, and was not the quiet start that was asked for.',
  definition:
    'Time of the cue minus the onset, with the cue as the device that sounds it reports it. Warn above 0.1 s. Not judged where no cue was recorded.',
  source: 'Definition and limit are proposals of this program',
  unit: 's',
  scope: 'trial',
  defaultLimits: { warn: 0.1 },
  judge(trial, limits) {
    const { cue, forces } = trial;
    if (cue === undefined) return notJudged('s', 'no-cue');
    if (!trial.onset.ok) return notJudged('s', 'no-onset');
    const onset = trial.onset.value.index;
    const judged = { start: Math.min(onset, cue), end: Math.max(onset, cue) + 1 };
    if (hasOpenGap(trial, judged)) return notJudged('s', 'gap', judged);
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    if (!levels) return notJudged('s', 'no-body-weight', judged);
    const forceAt = (at: number) => valueAt(forces.total, Math.min(Math.max(at, 0), forces.sampleCount - 1));
    return judgeAbove((cue - onset) / forces.sampleRate, levels, 's', judged, [
      { at: onset, force: forceAt(onset), label: 'onset' },
      { at: cue, force: forceAt(cue), label: 'cue' },
    ]);
  },
};
