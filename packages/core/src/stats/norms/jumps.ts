import type { PublishedGroup, PublishedRange } from './published-group.ts';

// Heights of unlike kinds (from the velocity at take-off, from the flight time, from a mat) never compare, so each says what is known of its
// own. Jumps with arm swing are left out: the arms are a choice of the setup here, and those with hands on the hips would stand among them.

const height = { metric: 'jump_height', weight: 'no-force', evidence: 'abstract' } as const;
const countermovement = { ...height, test: 'countermovement-jump', unit: 'cm' } as const;

const sprint = {
  ...countermovement,
  population: 'sprint athletics',
  level: 'national team',
  remark: 'Force plate, 1995 to 2018; the equation of the height was not seen.',
  source: {
    authors: 'Haugen et al.',
    year: 2021,
    where: 'Int J Sports Physiol Perform',
    doi: '10.1123/ijspp.2019-0964',
  },
} as const;

/** Groups whose mean and SD of a jump were printed and checked. */
export const jumpGroups: readonly PublishedGroup[] = [
  { ...sprint, id: 'cmj-sprint-men', sex: 'male', among: { people: 989, groups: 44 }, mean: 62.7, sd: 4.8 },
  { ...sprint, id: 'cmj-sprint-women', sex: 'female', among: { people: 588, groups: 44 }, mean: 48.4, sd: 6 },
  {
    ...height,
    id: 'sj-volleyball-men',
    test: 'squat-jump',
    unit: 'm',
    population: 'volleyball',
    sex: 'male',
    n: 45,
    mean: 0.39,
    sd: 0.06,
    remark: 'Lowest 0.26 m, highest 0.53 m. The equation of the height was not seen.',
    source: { authors: 'Kozinc et al.', year: 2021, where: 'Int J Environ Res Public Health 18:11754' },
  },
];

const modifiedIndex = {
  ...countermovement,
  metric: 'rsi_modified',
  unit: 'm/s',
  population: 'athletes of several sports',
  level: 'collegiate, first division',
  of: 'people',
  remark: 'The paper has a table of percentiles that was not reached.',
  source: { authors: 'Sole et al.', year: 2018, where: 'Sports 6(4):133' },
} as const;

/** Lowest and highest person of a group. */
export const jumpRanges: readonly PublishedRange[] = [
  { ...modifiedIndex, id: 'cmj-rsimod-men', sex: 'male', n: 76, low: 0.208, high: 0.704 },
  { ...modifiedIndex, id: 'cmj-rsimod-women', sex: 'female', n: 75, low: 0.135, high: 0.553 },
];
