import { searchBackward } from '../backward-search.ts';
import type { OnsetRule } from '../rule.ts';

const source =
  "Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473 (5 SD of the weighing window); backward search of our own";

/** Five standard deviations above the baseline: the published criterion. */
export const fiveSd: OnsetRule = {
  id: 'five-sd',
  version: 1,
  title: 'Baseline + 5 SD',
  definition: 'The sample after the last one, seen backward from the half rise, with F <= B + 5 S.',
  source,
  automatic: true,
  find: (input) => searchBackward(input, 'five-sd', 5 * input.baseline.sd),
};

/** The same with at least 10 N, so that a very quiet plate does not put the onset into its own noise. */
export const fiveSdFloor: OnsetRule = {
  id: 'five-sd-floor',
  version: 1,
  title: 'Baseline + 5 SD, at least 10 N',
  definition:
    'As five-sd with F <= B + max(5 S, 10 N). In a test without body weight the 10 N are dropped, which leaves five-sd.',
  source: `${source}; the floor is a proposal of ours without a published number`,
  automatic: true,
  find: (input) => {
    const d = 5 * input.baseline.sd;
    return searchBackward(input, 'five-sd-floor', input.weighted ? Math.max(d, 10) : d);
  },
};

/** Three standard deviations, common in single-joint work; about one normal sample in 741 exceeds it by chance. */
export const threeSd: OnsetRule = {
  id: 'three-sd',
  version: 1,
  title: 'Baseline + 3 SD',
  definition: 'The sample after the last one, seen backward from the half rise, with F <= B + 3 S.',
  source: 'Maffiuletti et al. 2016, Eur J Appl Physiol 116:1091-1116 (3 SD); backward search of our own',
  automatic: true,
  find: (input) => searchBackward(input, 'three-sd', 3 * input.baseline.sd),
};
