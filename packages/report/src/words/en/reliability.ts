/** Words of the report on how good a test is. */
export const reliability = {
  title: 'Reliability of a test',
  subject: (metric: string, squad: string) => `${metric}, ${squad}`,
  lead: (error: string, low: string, high: string, people: number, sessions: number) =>
    `Typical error ${error} (95 % interval ${low} to ${high}), from ${people} athletes in ${sessions} sessions each.`,
  none: 'There is no study: not two athletes have so many sessions after their first, or the values do not differ.',
  small: 'Fewer than ten athletes: provisional.',
  logs: 'Errors, changes and correlations were computed on 100 ln x and are given in per cent.',
  study: 'Reliability',
  head: { what: 'What', value: 'Value', low: 'Low, 95\u00a0%', high: 'High, 95\u00a0%', says: 'What it says' },
  error: 'Typical error',
  errorSays: (df: string) => `scatter of one athlete from session to session; ${df} degrees of freedom`,
  all: 'Typical error, everybody',
  allSays: (icc: string) => `with athletes who miss a session, mixed model by REML; ICC(3,1) ${icc}`,
  detectable: (level: number) => `Detectable change, ${level} %`,
  detectableSays: 'two tests of somebody who did not change differ by less',
  worthwhile: 'Smallest worthwhile change',
  worthwhileSays: '0.2 of the spread of true levels',
  undefinedHere: 'not defined for these values',
  shift: 'Shift of the mean',
  shiftSays: (df: string, p: string) => `F with ${df} degrees of freedom; p ${p}`,
  forms: {
    '1,1': 'one-way, one test',
    '2,1': 'agreement, two-way, one test',
    '3,1': 'consistency, two-way, one test',
    '1,k': 'one-way, mean of all sessions',
    '2,k': 'agreement, mean of all sessions',
    '3,k': 'consistency, mean of all sessions',
  } as Readonly<Record<string, string>>,
  bands: { poor: 'poor', moderate: 'moderate', good: 'good', excellent: 'excellent' },
  caution: 'An ICC grows with the spread of the group: read it beside the typical error, never alone.',
  steps: 'From session to session',
  stepHead: {
    from: 'From',
    n: 'Athletes',
    change: 'Mean change',
    low: 'Low, 95\u00a0%',
    high: 'High, 95\u00a0%',
    says: 'What it says',
  },
  step: (before: number) => (before === 0 ? 'newest' : `${before} before`),
  stepTo: (from: string, to: string) => `${from} to ${to}`,
  shifted: 'a shift',
  notShifted: 'no shift shown',
  flow: 'Flow of trials',
  flowLead: 'Every effort of this test of these athletes, from the pull to the study.',
  flowHead: { step: 'Step', n: 'Efforts', note: 'What it means' },
  flowSteps: {
    efforts: ['Efforts made', 'of every kind'],
    submaximal: ['Submaximal and to get to know the test', 'never measured for a value'],
    maximal: ['Maximal efforts', ''],
    counts: ['Count by the checks alone', ''],
    lookAgain: ['Look again', 'a check wants a second look'],
    repeat: ['Repeat', 'rejected by a check'],
    notAnalysed: ['Not analysed', 'no result is kept'],
    overruled: ['Overruled to count', ''],
    excluded: ['Taken out by a person', ''],
    byHand: ['Onset placed by hand', ''],
    counting: ['Count in the end', ''],
    familiarisation: ['In first sessions', 'left out: getting to know the test'],
    older: ['In older sessions', 'not among the newest asked for, or of athletes without a value'],
    used: ['In the study', ''],
  } satisfies Record<string, readonly [string, string]> as Record<FlowStep, readonly [string, string]>,
  by: (name: string, n: number) => `${name}: ${n}`,
  usedNote: (sessions: number, people: number) => `${sessions} sessions of ${people} athletes`,
  usedSessions: (n: number) => `${n} ${n === 1 ? 'session' : 'sessions'}`,
  checks: 'By which check',
  checksNote: 'An effort may stand under several checks.',
  checkHead: { check: 'Check', failed: 'Repeat', warned: 'Look again' },
  noChecks: 'No check rejected an effort or wanted a second look.',
  measured: 'How it was measured',
  facts: {
    period: 'Sessions of the study',
    rates: 'Sampling',
    filter: 'Filter',
    onset: 'Onset',
    rule: 'Value of a session',
    weight: 'Body weight',
    gravity: 'Local gravity',
    cue: 'Words of the cue',
    rest: 'Rest between efforts',
    rig: 'Rig',
    rigCheck: 'Last rig check',
    software: 'Software',
    method: 'Method',
    protocol: 'Protocol',
  },
  period: (from: string, until: string, n: number) => `${n} sessions, ${from} to ${until}`,
  sessionsOf: (said: string, n: number) => `${said} (${n} ${n === 1 ? 'session' : 'sessions'})`,
  effortsOf: (said: string, n: number) => `${said} (${n} ${n === 1 ? 'effort' : 'efforts'})`,
  withoutProtocol: (n: number) => `${n} ${n === 1 ? 'session' : 'sessions'} without a kept protocol version`,
  setup: 'Setup over the sessions of the study',
  setupHead: { field: 'Field', n: 'Sessions', values: 'Values' },
  noSetup: 'No setup was kept in these sessions.',
};

export type FlowStep =
  | 'efforts'
  | 'submaximal'
  | 'maximal'
  | 'counts'
  | 'lookAgain'
  | 'repeat'
  | 'notAnalysed'
  | 'overruled'
  | 'excluded'
  | 'byHand'
  | 'counting'
  | 'familiarisation'
  | 'older'
  | 'used';
