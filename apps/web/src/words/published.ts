import { count } from './count.ts';

const cautionsOfForces = [
  'Most papers do not say whether body weight is inside the force (gross) or taken off (net). Where that is not said, a difference of a body weight may lie between them and your values.',
  'The numbers were checked against the abstracts. Bar height, straps, cue, and whether the best pull or a mean was printed were not. Read the paper before you show this to an athlete.',
];
const cautionsOfJumps = [
  'The numbers were checked against the abstracts. How the height was worked out, what the arms did, and whether the best jump or a mean was printed were not. Read the paper before you show this to an athlete.',
];

/** Words of the published values that stand below a lab's own norms. */
export const publishedWords = {
  title: 'Published values of other people',
  text: 'Printed in papers, of other people with other set-ups. They stand here by themselves: nothing on another page depends on them, and they are never mixed with your own.',
  cautions: (ofForce: boolean) => [
    'Your own come first: from 30 people of a group on, read the table above instead.',
    ...(ofForce ? cautionsOfForces : cautionsOfJumps),
  ],
  none: (test: string, metric: string) =>
    `No published value with a source, mean and SD is known here for ${metric} in this test (${test}).`,
  head: { group: 'Group', n: 'n', mean: 'Mean \u00b1 SD', source: 'Source' },
  plusMinus: (mean: string, sd: string) => `${mean} \u00b1 ${sd}`,
  sex: { female: 'female', male: 'male', both: 'both sexes', 'not-said': 'sex not said' } as Record<string, string>,
  weight: {
    gross: 'gross',
    net: 'net',
    'not-said': 'gross or net not said',
    'no-force': '',
  } as Record<string, string>,
  notKnown: 'not known',
  among: (people: number, groups: number) => `not known (${people} in ${count(groups, 'group', 'groups')})`,
  year: (authors: string, year: number | undefined) => (year === undefined ? authors : `${authors} ${year}`),
  ranges: 'Only for the size of a value',
  rangesText: 'Lowest to highest. A range gives nobody a place, so none is computed from it.',
  range: (low: string, high: string) => `${low} to ${high}`,
  of: {
    'study-means': 'means of studies',
    people: 'people',
  } as Record<string, string>,
  place: {
    title: 'Where does one value stand?',
    group: 'Published group',
    whose: 'Whose value',
    typed: 'A value I type',
    person: (name: string, value: string) => `${name}, ${value}`,
    value: (unit: string) => (unit === '' ? 'Value' : `Value, ${unit}`),
    wrong: 'A number above zero, please.',
    ask: 'Choose an athlete, or type a value.',
    of: (value: string, group: string) => `${value} among ${group}`,
    z: 'z',
    percentile: 'Of such a group are below',
    t: 'T (50 is the mean, 10 one SD)',
    limits: (low: string, high: string) => `95 % interval ${low === high ? low : `${low} to ${high}`}`,
    error: (error: string, n: number) =>
      `Standard error of z ${error}, from ${count(n, 'person', 'people')} in the group.`,
    unsure: 'How many people this group had is not known here, so how sure this place is cannot be said.',
    normal: 'The percentile takes the group for normally distributed.',
    kept: 'Computed for this page alone, and not kept.',
    otherSex: (group: string, person: string) => `The group is ${group}, the athlete is noted as ${person}.`,
    noted: { female: 'female', male: 'male', other: 'neither female nor male' } as Record<string, string>,
  },
};
