/** Words of the page of a squad. */
export const squad = {
  title: 'Squad',
  everybody: 'Everybody',
  lead: (n: number, changed: number) => `${n} athletes with a value, ${changed} with a session to compare with.`,
  chance: (words: number, chance: string) =>
    `${words} ${words === 1 ? 'is' : 'are'} called stronger or weaker; by chance alone ${chance} such words are expected where nobody changed.`,
  chanceUnit: (words: number, chance: string) =>
    `${words} ${words === 1 ? 'gets' : 'get'} a sure word; by chance alone ${chance} such words are expected where nobody changed.`,
  head: {
    person: 'Athlete',
    value: 'Newest',
    z: 'z',
    difference: 'Since the session before',
    word: 'Word',
    last: 'Tested',
    n: 'Trials',
  },
  headUnit: (head: string, unit: string) => (unit === '' ? head : `${head}, ${unit}`),
  never: 'never tested',
  noWord: 'no word yet',
  order:
    'In the order of names. z: distance from the mean of everybody who has a value, in SDs; not given for anybody under 18.',
  minors: (n: number) =>
    `${n} ${n === 1 ? 'athlete' : 'athletes'} under 18 or without a birth date: no place in the squad.`,
  minorsMass: (n: number) =>
    `${n} ${n === 1 ? 'athlete is' : 'athletes are'} left out: this value tells body mass, and they are under 18 or have no birth date here.`,
  unlike: 'Not alike',
  noFigure: (n: number) => `More than ${n} athletes: no figure; every number stands in the table.`,
  figure: (metric: string) => `${metric}: now and before`,
  figureAlt: (metric: string, n: number, low: string, high: string) =>
    `${metric} of ${n} athletes, from ${low} to ${high}; every number stands in the table.`,
  legend:
    'Dot: newest value. Bar: where it is expected with 95 % when nothing has changed since the session before (tick). Bold: a sure word.',
  none: 'Nobody of this squad has this value yet.',
};
