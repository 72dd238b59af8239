import { count } from './count.ts';

/** Words of the page on how good a test is. */
export const reliabilityWords = {
  title: 'Reliability',
  question: 'How good is this test?',
  sessions: 'Newest sessions of each athlete',
  copy: 'Copy as a table',
  copied: 'Copied. Paste it into a spreadsheet or a text.',
  notCopied: 'The browser did not allow it. Select the table and copy it by hand.',
  none: {
    'too-few-values':
      'There are not two athletes with so many sessions after their first. Test again, or choose fewer sessions.',
    other: 'This value cannot be studied: its sessions do not differ, or a value is missing.',
  },
  from: (complete: number, people: number) =>
    `${complete} of ${count(people, 'athlete', 'athletes')} have every session`,
  small: 'Fewer than ten athletes: provisional.',
  logs: 'In logs: errors and changes in per cent.',
  interval: (percent: string) => `Intervals: ${percent}.`,
  head: { what: 'What', value: 'Value', interval: 'Interval', says: 'What it says' },
  error: 'Typical error',
  errorSays: 'How far one athlete’s repeated values scatter from session to session.',
  all: 'Typical error, everybody',
  allSays: (icc: string) => `With the athletes who miss a session, by a mixed model; ICC(3,1) ${icc} there.`,
  detectable95: 'Detectable change, 95 %',
  detectable90: 'Detectable change, 90 %',
  detectableSays: 'Two tests of somebody who did not change differ by less.',
  worthwhile: 'Smallest worthwhile change',
  worthwhileSays: '0.2 of the spread of true levels, all athletes of this table together.',
  useful: {
    finer: 'The error is finer than it: one test can show it.',
    'about-equal': 'The error is about as large.',
    coarser: 'The error is larger: average several tests, or expect a larger change.',
  },
  forms: {
    '1,1': 'a session as good as any other, one test',
    '2,1': 'agreement, with the shift from session to session, one test',
    '3,1': 'consistency, without that shift, one test',
    '1,k': 'as (1,1), for the mean of all sessions',
    '2,k': 'as (2,1), for the mean of all sessions',
    '3,k': 'as (3,1), for the mean of all sessions',
  } as Record<string, string>,
  bands: (low: string, high: string) => (low === high ? low : `${low} to ${high}`),
  undefinedHere: 'not defined for these values',
  learning: 'From session to session',
  learningHead: { from: 'From', n: 'Athletes', change: 'Mean change', interval: 'Interval', says: 'What it says' },
  step: (before: number) => (before === 0 ? 'newest' : `${before} before`),
  stepTo: (from: string, to: string) => `${from} to ${to}`,
  shift: 'a shift: its interval leaves out zero',
  noShift: 'no shift shown',
  familiarisation: (n: number | undefined) =>
    n === undefined
      ? 'The last step still shifts: these sessions do not say when learning or training stops.'
      : n === 0
        ? 'No session has to be kept out as familiarisation beyond the first.'
        : `Keep the first ${count(n, 'session', 'sessions')} of these out as well.`,
  means: 'The sessions',
  meansHead: { session: 'Session', n: 'Athletes', mean: 'Mean', sd: 'SD' },
  leftOut: (names: readonly string[]) => `Without every session, so in the mixed model only: ${names.join(', ')}.`,
  rules: {
    title: 'Which onset rule is the most reliable here?',
    text: (trials: number) =>
      `The same ${count(trials, 'effort', 'efforts')} under every rule, those that count by the method in use. The smallest error stands first; intervals that overlap say that a difference may be chance.`,
    head: {
      rule: 'Onset rule',
      error: 'Typical error',
      interval: 'Interval',
      icc: 'ICC(3,1)',
      mean: 'Newest mean',
      people: 'Athletes',
    },
    current: 'in use',
    none: {
      'not-of-onset': 'This value does not depend on where the pull begins: every rule gives the same.',
      other: 'There are not two athletes with so many sessions after their first.',
    },
    lacking: 'no study',
    change: 'Judge the archive by another rule',
  },
  caution: 'An ICC grows with the spread of the group: read it beside the typical error, never alone.',
};
