/** One setting of a protocol that is a number: what it is, how far it may go, why, and where its usual value comes from. */
export interface ProtocolField {
  /** Path in the document; `*` stands for every entry of a list. */
  readonly path: string;
  readonly title: string;
  /** `share` is stored between 0 and 1 and shown in %; `force` is in the unit of the test. */
  readonly unit: 's' | 'share' | 'force' | 'times' | 'weights';
  readonly low: number;
  readonly high: number;
  readonly whole?: boolean;
  /** Left out: the rule does not hold. */
  readonly optional?: boolean;
  /** What it does on the day. */
  readonly does: string;
  /** Why the limits are where they are. */
  readonly why: string;
  /** Where the usual value comes from. */
  readonly source: string;
}

const comfort = 'Comfort et al. 2019, Strength Cond J 41(2):57-79 (from memory)';
const proposal = 'A proposal of this program, without a published number.';

/** Every number of a protocol. Validation, form, print, differences and the reference page are made from this list. */
export const protocolFields: readonly ProtocolField[] = [
  {
    path: 'warmUp.efforts.*.share',
    title: 'Submaximal effort',
    unit: 'share',
    low: 0.2,
    high: 0.95,
    does: 'Where the target band of this submaximal effort lies.',
    why: 'Under 20 % it warms nothing up; over 95 % it is a maximal effort and must be one.',
    source: `Half and three quarters, and nine tenths where there is time: ${comfort}`,
  },
  {
    path: 'warmUp.efforts.*.band',
    title: 'Half width of the target band',
    unit: 'share',
    low: 0.02,
    high: 0.4,
    does: 'How far from the aim a submaximal effort still counts as on target.',
    why: 'Nobody holds a force to 2 %; wider than 40 % is no target.',
    source: proposal,
  },
  {
    path: 'warmUp.efforts.*.weightShare',
    title: 'Expected maximum before there is an own best',
    unit: 'weights',
    low: 0.2,
    high: 5,
    does: 'Aim of an athlete without an earlier result: this many body weights above standing count as the maximum.',
    why: 'Outside this range no person of a squad lies.',
    source: proposal,
  },
  {
    path: 'warmUp.rest',
    title: 'Rest after a submaximal effort',
    unit: 's',
    low: 0,
    high: 600,
    does: 'How long the athlete rests after a submaximal effort.',
    why: 'More than ten minutes lets the warm-up go cold.',
    source: `About 60 s: ${comfort}`,
  },
  {
    path: 'maximal.minimum',
    title: 'Maximal efforts that must count',
    unit: 'times',
    low: 0,
    high: 10,
    whole: true,
    does: 'A session with fewer is said to be incomplete.',
    why: 'None only where no maximal effort is planned; over ten is training.',
    source: `At least two: ${comfort}`,
  },
  {
    path: 'maximal.planned',
    title: 'Maximal efforts aimed at',
    unit: 'times',
    low: 0,
    high: 10,
    whole: true,
    does: 'Maximal efforts go on until so many count.',
    why: 'Each one tires; over ten is training.',
    source: `Three: ${comfort}`,
  },
  {
    path: 'maximal.maximum',
    title: 'Maximal efforts at most',
    unit: 'times',
    low: 0,
    high: 12,
    whole: true,
    does: 'After so many, rejected ones included, the set closes whatever happened.',
    why: 'More than twelve maximal efforts in one session no source uses.',
    source: `Five: ${comfort}`,
  },
  {
    path: 'rest.minimum',
    title: 'Shortest rest after a maximal effort',
    unit: 's',
    low: 15,
    high: 1800,
    does: 'No next effort begins before it is over, unless a person says so.',
    why: 'Under 15 s it is one effort in two parts; over half an hour it is another session.',
    source: 'Two minutes: Haff et al. 2015, J Strength Cond Res 29(2):386-395',
  },
  {
    path: 'rest.maximum',
    title: 'Longest rest before warming up again',
    unit: 's',
    low: 60,
    high: 7200,
    does: 'After it a submaximal effort comes before the next maximal one.',
    why: 'It must be longer than the shortest rest; after two hours the athlete is cold in any case.',
    source: proposal,
  },
  {
    path: 'cue.count',
    title: 'Count before the cue',
    unit: 's',
    low: 1,
    high: 5,
    whole: true,
    does: 'Three: three, two, one, cue.',
    why: 'Without a count nobody is ready; over 5 s of tension tires the grip.',
    source: `Three, two, one: ${comfort}`,
  },
  {
    path: 'cue.delay',
    title: 'Steady tension before the count',
    unit: 's',
    low: 0,
    high: 5,
    does: 'Hands-free: the count begins once the tension was steady for so long.',
    why: 'Longer than 5 s the athlete is told to relax.',
    source: proposal,
  },
  {
    path: 'pull.seconds',
    title: 'Length of a pull',
    unit: 's',
    low: 0.5,
    high: 10,
    does: '"Stop" is said after this time.',
    why: 'Under half a second nothing is measured; over ten the breath is held too long.',
    source: `Five seconds, two to six: ${comfort}; about one second for an explosive pull: Maffiuletti et al. 2016, Eur J Appl Physiol 116:1091-1116`,
  },
  {
    path: 'pull.warnUnder',
    title: 'Second look under',
    unit: 's',
    low: 0.1,
    high: 10,
    does: 'A pull held for less is looked at again.',
    why: 'It lies between the shortest pull that counts and the length of a pull.',
    source: proposal,
  },
  {
    path: 'pull.failUnder',
    title: 'Does not count under',
    unit: 's',
    low: 0.1,
    high: 10,
    does: 'A pull held for less is to be repeated.',
    why: 'It is not longer than the second look.',
    source: proposal,
  },
  {
    path: 'extraTrial.difference',
    title: 'Extra trial over a difference of',
    unit: 'force',
    low: 20,
    high: 2000,
    does: 'Another maximal effort is asked for while the two best differ by more.',
    why: 'Under 20 N the plates alone may differ; over 2000 N the rule never speaks.',
    source: `250 N: ${comfort}, after Haff et al. 1997 and 2005`,
  },
  {
    path: 'extraTrial.share',
    title: 'Extra trial over a share of the best',
    unit: 'share',
    low: 0.02,
    high: 0.5,
    optional: true,
    does: 'Takes the place of the difference: a share treats weak and strong athletes alike.',
    why: 'Under 2 % no two pulls agree; over half the rule never speaks.',
    source: '250 N is 4 % of 6000 N and 25 % of 1000 N. The share is a proposal of this program.',
  },
  {
    path: 'extraTrial.minorShare',
    title: 'Share for athletes under 18',
    unit: 'share',
    low: 0.02,
    high: 0.5,
    does: 'Takes the place of the difference for athletes under 18.',
    why: 'As the share for everyone.',
    source: proposal,
  },
  {
    path: 'stop.rejectedInARow',
    title: 'Stop after rejected efforts in a row',
    unit: 'times',
    low: 1,
    high: 10,
    whole: true,
    does: 'So many maximal efforts in a row that do not count speak for stopping.',
    why: 'One rejected effort is the strictest rule; over ten it never speaks.',
    source: proposal,
  },
  {
    path: 'stop.fall',
    title: 'Stop after a fall from the best of the day',
    unit: 'share',
    low: 0.05,
    high: 0.6,
    optional: true,
    does: 'A counting peak that lies so far under the best of the day speaks for stopping.',
    why: 'Under 5 % is the usual scatter from pull to pull.',
    source: proposal,
  },
];

const byPath = new Map(protocolFields.map((field) => [field.path, field]));

/** The field behind a path, list positions included: `warmUp.efforts.1.share`. */
export const protocolField = (path: string): ProtocolField | undefined =>
  byPath.get(path.replace(/\.\d+(?=\.|$)/gu, '.*'));

/** How long lists and texts may be, so that the sheet stays one page. */
export const protocolSizes = {
  name: 80,
  summary: 300,
  note: 300,
  words: 120,
  steps: 8,
  step: 120,
  efforts: 6,
  setupFields: 20,
  fieldTitle: 60,
  choices: 8,
  choice: 40,
  localRules: 6,
  localRule: 200,
} as const;
