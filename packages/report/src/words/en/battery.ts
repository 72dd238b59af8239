/** Words of the page of an athlete's tests together. */
export const battery = {
  title: 'Battery of tests',
  lead: (tests: number, day: string, ratios: number) =>
    `${tests} ${tests === 1 ? 'test' : 'tests'} up to ${day}, ${ratios} ${ratios === 1 ? 'ratio' : 'ratios'} of them.`,
  apart: (days: string) =>
    `Tests of one ratio lie at most ${days} days apart; a value is the mean of the efforts of a session that count.`,
  tests: 'Tests done',
  ratios: 'Ratios, each beside what it is made of',
  head: {
    test: 'Tested',
    when: 'Day',
    metric: 'Value of',
    value: 'Value',
    error: 'Typical error',
    n: 'Efforts',
    ratio: 'Ratio',
    word: 'Says',
    side: 'Made of',
  },
  ofMaximal: (n: number, of: number) => `${n} of ${of}`,
  names: {
    dynamic_strength_index: 'Dynamic strength index',
    eccentric_utilisation_ratio: 'Eccentric utilisation ratio',
    bilateral_index: 'Bilateral index of the pull',
  },
  made: {
    dynamic_strength_index: 'peak force of the jump over peak force of the pull, body weight in both',
    eccentric_utilisation_ratio: 'height of the countermovement jump over height of the squat jump',
    bilateral_index: 'both legs against the sum of each alone, body weight taken off',
  },
  roles: {
    jump: 'jump',
    isometric: 'pull',
    countermovement: 'with countermovement',
    squat: 'from the squat',
    both: 'both legs',
    left: 'left leg',
    right: 'right leg',
  },
  word: {
    strength: 'over 0.80: emphasis on maximal force',
    balanced: '0.60 to 0.80: balanced',
    ballistic: 'under 0.60: emphasis on fast force',
    gain: 'the countermovement adds height',
    'no-gain': 'the countermovement adds no height',
    deficit: 'deficit: less together than each alone',
    facilitation: 'more together than each alone',
    undecided: 'undecided',
  },
  because: {
    'interval-crosses': 'its interval contains a limit',
    'isometric-low': 'the pull was not the usual one',
    'no-error': 'its error is not known yet',
  },
  caution: {
    'first-session': 'a test was done for the first time',
    'days-apart': 'days lie between the tests',
    'arms-differ': 'the arms were not held alike',
    dip: 'a squat jump that counts sank before its push',
    'squat-jump-used': 'made with the squat jump, which repeats worse here',
    'error-of-trials': 'an error is that of one session’s efforts; from day to day it is larger',
  },
  mind: (ratio: string, cautions: string) => `${ratio}: ${cautions}.`,
  lack: {
    'test-missing': (tests: string) => `not given; no session of ${tests}`,
    'no-value': (tests: string) => `not given; no effort that counts in ${tests}`,
    'too-far-apart': (tests: string, days: string) => `not given; ${tests} lie ${days} days apart`,
    'other-method': (tests: string) => `not given; ${tests} were judged by different methods`,
  },
  received: (n: number) =>
    `${n} ${n === 1 ? 'session' : 'sessions'} of results only that were brought in are not mixed with them`,
  figure: 'Ratios with their 95 % intervals',
  figureLegend: 'Dot: value. Bar: 95 % interval from the typical errors of its sides. Dashes: limits.',
  figureAlt: (said: string) => `${said}; every number stands in the table.`,
  profile: 'Force and velocity of loaded jumps',
  profileLegend: (r2: string, loads: number) =>
    `r² ${r2} over only ${loads} loads; beyond the points the line is extrapolated and drawn in dashes`,
  /** Why there is no profile or no line. */
  profileLack: {
    'no-loads': () => 'no loaded jump',
    'loads-not-written': () => 'not given; no load is written down for the loaded jumps',
    'too-few-loads': (loads: number, needed: number) =>
      `no line: ${loads} ${loads === 1 ? 'load' : 'loads'}, and it takes ${needed}`,
    'no-push-off': () => 'not given; the push-off distance is not known for this jump',
    'no-fit': () => 'no line: force does not fall with velocity over these loads',
  },
  loadMissing: (n: number) =>
    `${n} ${n === 1 ? 'session has no load written down and stays out' : 'sessions have no load written down and stay out'}`,
  profileLoose: 'r² is under 0.95: the line is shown and not to be used',
  profileAlt: (loads: number, said: string) => `Mean force over mean velocity of jumps with ${loads} loads. ${said}`,
  load: (kilograms: string) => `${kilograms}\u00a0kg`,
  facts: {
    f0: 'Force at no velocity, F0',
    v0: 'Velocity at no force, V0',
    powerMax: 'Largest power',
    r2: 'r² of the line',
    loads: 'Loads',
    pushOff: 'Push-off distance',
  },
  pushOffFrom: { plates: 'as the plates measured it', given: 'as given' },
  profileSource: 'Mean force and velocity of the push-off: Samozino et al. 2008, J Biomech 41:2940-2945.',
  notice: 'What these numbers do not say',
  notices: [
    'A ratio is no diagnosis and no plan of training: equal indices hide unequal athletes, so read both sides first.',
    'Whether the dynamic strength index should steer training is disputed; another way of computing it often gives other advice.',
    'What a countermovement adds tells little of performance; a dip in the squat jump draws the ratio towards 1.',
  ],
  errors:
    'Typical error: of an adopted study or of the sessions of the squad and this athlete; errors of the sides are taken as independent.',
  errorsOfTrials:
    '* Of the efforts of this one session: it holds nothing of the day, and from day to day the error is larger.',
  massWithheld:
    'The bilateral index of the pull and the force-velocity profile are left out of this page: beside its forces they would tell body mass.',
};
