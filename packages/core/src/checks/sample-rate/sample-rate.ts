import type { CheckDefinition } from '../check.ts';
import { judgeBelow, levelsOf, notJudged, weightOf } from '../judging.ts';

/** Was the force sampled fast enough for rates? */
export const sampleRate: CheckDefinition = {
  id: 'sample_rate',
  version: 1,
  title: 'Sampled fast enough',
  finding: 'Too few samples a second',
  why: 'Between two samples nothing is known. At low rates the onset and every early force are uncertain by a good part of the value, while the peak still stands.',
  definition: 'Samples per second of the analysed grid. Warn below 1000 Hz, fail below 500 Hz.',
  source: "Dos'Santos et al. 2016, Int J Sports Physiol Perform 11(2):255-260 (from memory)",
  unit: 'Hz',
  scope: 'rates',
  bound: 'least',
  defaultLimits: { warn: 1000, fail: 500 },
  judge(trial, limits) {
    const levels = levelsOf(limits, { weight: weightOf(trial) });
    return levels ? judgeBelow(trial.forces.sampleRate, levels, 'Hz') : notJudged('Hz', 'no-body-weight');
  },
};
