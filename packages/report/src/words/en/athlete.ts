/** Words of the page of one athlete. */
export const athlete = {
  title: 'Strength test',
  sentence: (difference: string, reference: string) => `${difference} against ${reference}.`,
  of: (when: string) => ` of ${when}`,
  noise: (detectable: string) =>
    `In 95 of 100 cases two tests of somebody who did not change differ by less than ${detectable}.`,
  why: {
    stronger: 'A true gain beyond the smallest worthwhile change is at least 95 % probable.',
    'probably stronger': 'A true gain beyond the smallest worthwhile change is 90 to 95 % probable.',
    weaker: 'A true loss beyond the smallest worthwhile change is at least 95 % probable.',
    'probably weaker': 'A true loss beyond the smallest worthwhile change is 90 to 95 % probable.',
    unchanged: 'A true change smaller than is worth while is at least 75 % probable.',
    "inside the test's noise": 'The difference is no larger than the scatter from test to test.',
    'cannot tell yet': 'More than the scatter of two tests, but not yet surely more than is worth while. Test again.',
  },
  byStep: (word: string) =>
    `By the numbers alone: ${word}. Not everything was alike, so the word claims one step less.`,
  unlike: (titles: string) => `Not alike: ${titles}.`,
  noWord: 'No word on a change yet: it takes more sessions, or a squad whose noise is known.',
  noWordMark: 'Newest value',
  noValue: 'No session has this value: no maximal effort that counts holds it.',
  minor: 'Under 18: the page holds no body mass and no place among others.',
  unknownAge:
    'No birth date is kept, so the page is made as for somebody under 18: no body mass, no place among others.',
  figure: (metric: string) => `${metric} over time`,
  figureAlt: (metric: string, n: number, from: string, to: string, newest: string, band: string) =>
    `${metric} of ${n} sessions from ${from} to ${to}. The newest is ${newest}.${band}`,
  figureBand: (low: string, high: string) => ` Without a change it is expected from ${low} to ${high}.`,
  band: 'Grey: where the newest value is expected with 95 % when nothing has changed',
  first: 'open circle: first session, to get to know the test',
  newest: 'newest',
  best: 'best',
  restsOn: 'What the word rests on',
  facts: {
    interval: 'True change, 95 %',
    probabilities: 'Gain, neither, loss',
    error: 'Typical error of the test',
    errorOf: (df: string) => `${df} degrees of freedom`,
    rigs: 'Gain of two rigs, or of two checks',
    worthwhile: 'Smallest worthwhile change',
    worthwhileNone: 'not known: any size counts',
    confirmable: 'Smallest gain this test confirms',
    confirmableNote: 'four times in five',
    chance: 'Sure words by chance',
    chanceOf: (n: string) => `${n} in 100 who did not change`,
    best: 'Own best',
  },
  sessions: 'Sessions, newest first',
  head: { when: 'Session', value: 'Value', sd: 'SD', n: 'Trials', note: 'Beside the newest' },
  ofMaximal: (n: number, of: number) => `${n} of ${of}`,
  nothingCounts: 'nothing counts',
  note: { newest: 'newest', best: 'best', first: 'getting to know it', alike: 'alike' },
  differs: (titles: string) => `differs: ${titles}`,
  more: (n: number) =>
    `${n} earlier ${n === 1 ? 'session is' : 'sessions are'} left out of the table, not of the figure.`,
  made: 'How the number was made',
  madeOf: (rule: string, filter: string, onset: string) =>
    `Value of a session: ${rule}. Filter: ${filter}. Onset: ${onset}.`,
  madeNoise:
    'Noise: scatter between sessions of the squad and of this athlete, the first session left out. Probabilities hold under a flat prior; they are no error rates.',
};
