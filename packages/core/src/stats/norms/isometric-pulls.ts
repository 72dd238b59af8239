import type { PublishedGroup, PublishedRange } from './published-group.ts';

const pull = { test: 'imtp', evidence: 'abstract' } as const;
const newtons = { ...pull, metric: 'peak_force', unit: 'N' } as const;
const perKilogram = { ...pull, metric: 'peak_force_relative', unit: 'N/kg' } as const;

const rugby = {
  ...newtons,
  sex: 'not-said',
  level: 'academy',
  weight: 'not-said',
  among: { people: 67, groups: 3 },
  source: { authors: 'Darrall-Jones et al.', year: 2015, where: 'J Strength Cond Res 29(8):2086-2096' },
} as const;

const youthSoccer = {
  ...perKilogram,
  population: 'soccer',
  sex: 'female',
  level: 'elite youth',
  weight: 'not-said',
  among: { people: 157, groups: 6 },
  remark: 'Grouped by maturity, not by age.',
  source: { authors: 'Emmonds et al.', year: 2020, where: 'J Strength Cond Res 34(8):2321-2328' },
} as const;

const collegiate = {
  ...perKilogram,
  population: 'athletes of several sports',
  sex: 'male',
  weight: 'not-said',
  n: 20,
  source: { authors: 'McMahon et al.', year: 2017, where: 'Sports 5(4):72' },
} as const;

const straps = {
  ...newtons,
  population: 'soccer',
  level: 'collegiate, first division',
  weight: 'not-said',
  source: { authors: 'Honours thesis no. 787', where: 'University of Central Florida (year not checked)' },
} as const;

/** Groups whose mean and SD of the peak force of a mid-thigh pull were printed and checked. */
export const pullGroups: readonly PublishedGroup[] = [
  {
    ...rugby,
    id: 'imtp-rugby-union-u16',
    population: 'rugby union',
    age: 'under 16',
    mean: 2157.9,
    sd: 309.9,
    remark: 'Body mass 79.4 \u00b1 12.8 kg.',
  },
  {
    ...rugby,
    id: 'imtp-rugby-union-u18',
    population: 'rugby union',
    age: 'under 18',
    mean: 2561.3,
    sd: 339.4,
    remark: 'Body mass 88.3 \u00b1 11.9 kg.',
  },
  {
    ...rugby,
    id: 'imtp-rugby-union-u21',
    population: 'rugby union',
    age: 'under 21',
    mean: 3104.5,
    sd: 354,
    remark: 'Body mass 98.3 \u00b1 10.4 kg.',
  },
  {
    ...straps,
    id: 'imtp-soccer-men-straps',
    sex: 'male',
    n: 10,
    mean: 2102.3,
    sd: 506.2,
    remark: 'With straps. The same men pulled 1468.6 \u00b1 286.0 N without.',
  },
  {
    ...straps,
    id: 'imtp-soccer-women-straps',
    sex: 'female',
    n: 11,
    mean: 1105,
    sd: 294.7,
    remark: 'With straps. The same women pulled 940.6 \u00b1 155.7 N without.',
  },
  {
    ...newtons,
    id: 'imtp-adults-control-cue',
    population: 'adults',
    sex: 'both',
    weight: 'gross',
    n: 31,
    mean: 2078,
    sd: 549,
    remark: 'Pulls of 2 s, usual instruction. Men and women in one group: the SD is that of both.',
    source: { authors: 'Ray et al.', year: 2026, where: 'Int J Exerc Sci Conf Proc 2(18):215' },
  },
  {
    ...youthSoccer,
    id: 'imtp-soccer-girls-before',
    age: 'half a year before peak height velocity',
    mean: 27.13,
    sd: 4.24,
  },
  {
    ...youthSoccer,
    id: 'imtp-soccer-girls-after',
    age: 'half a year after peak height velocity',
    mean: 24.62,
    sd: 3.7,
  },
  {
    ...collegiate,
    id: 'imtp-collegiate-low-dsi',
    level: 'collegiate, lowest third by dynamic strength index',
    mean: 46.7,
    sd: 15,
    remark:
      'The index is jump force over pull force: chosen for a strong pull, and high for a gross mean. Read it as this sample only.',
  },
  {
    ...collegiate,
    id: 'imtp-collegiate-high-dsi',
    level: 'collegiate, highest third by dynamic strength index',
    mean: 31.1,
    sd: 6.6,
    remark: 'The index is jump force over pull force: chosen for it, so no sample of all athletes.',
  },
];

const review = {
  ...newtons,
  population: 'rugby',
  sex: 'not-said',
  weight: 'not-said',
  of: 'study-means',
  remark: 'A review of 24 studies; how many stand behind each range was not seen.',
  source: { authors: 'Review', year: 2020, where: 'J Funct Morphol Kinesiol 5:91' },
} as const;

/** Ranges of the means of studies. */
export const pullRanges: readonly PublishedRange[] = [
  { ...review, id: 'imtp-rugby-youth-range', level: 'youth', low: 1162, high: 2374 },
  { ...review, id: 'imtp-rugby-academy-range', level: 'academy', low: 1855, high: 3104 },
  { ...review, id: 'imtp-rugby-professional-range', level: 'professional', low: 2254, high: 3851 },
];
