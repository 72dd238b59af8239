import type { Ratio, RatioCaution, RatioComponent, RatioId, RatioView, RatioWord } from '@sthene/contract';
import { count } from './count.ts';

/** Words of the page of an athlete's tests together. */
export const batteryWords = {
  title: 'Battery of tests',
  question: 'What do the tests say together?',
  link: 'Battery of tests',
  apart: 'Days between the tests of one ratio',
  apartOf: (days: number, usual: boolean) =>
    `${days === 0 ? 'same day' : `at most ${count(days, 'day', 'days')}`}${usual ? ' (common practice)' : ''}`,
  on: 'Up to the day',
  ratios: {
    dynamic_strength_index: {
      title: 'Dynamic strength index',
      about: 'Peak force of the jump over peak force of the pull, with body weight in both.',
      mind: 'Read both sides first: equal indices hide unequal athletes. Whether the index should steer training is disputed.',
    },
    eccentric_utilisation_ratio: {
      title: 'Eccentric utilisation ratio',
      about: 'Height of the countermovement jump over height of the squat jump.',
      mind: 'It tells little of performance. A dip in the squat jump draws it towards 1; jumps that dipped do not count.',
    },
    bilateral_index: {
      title: 'Bilateral index of the pull',
      about:
        'Both legs together against the sum of each alone; body weight taken off, it would count twice on single legs.',
      mind: 'A pull on one leg is also a test of balance: compare only with the same help of the hands.',
    },
  } satisfies Record<RatioId, { title: string; about: string; mind: string }>,
  word: {
    strength: 'Over 0.80: emphasis on maximal force',
    balanced: 'Balanced, between 0.60 and 0.80',
    ballistic: 'Under 0.60: emphasis on fast force',
    gain: 'The countermovement adds height',
    'no-gain': 'The countermovement adds no height',
    deficit: 'Deficit: less together than each alone',
    facilitation: 'More together than each alone',
    undecided: 'Undecided',
  } satisfies Record<RatioWord, string>,
  because: {
    'interval-crosses': 'its 95 % interval contains a limit.',
    'isometric-low': 'the pull was more than two errors below the athlete’s usual one. Test the pull again.',
    'no-error': 'how much the tests scatter is not known yet. It takes a second session of each.',
  } satisfies Record<NonNullable<Ratio['because']>, string>,
  error: (error: string, low: string, high: string) => `typical error ${error}; 95 % ${low} to ${high}`,
  augmentation: (percent: string, difference: string) => `${percent} with the countermovement, ${difference}`,
  sides: 'Both sides',
  threeSides: 'All three sides',
  role: {
    jump: 'Jump',
    isometric: 'Pull',
    countermovement: 'With countermovement',
    squat: 'From the squat',
    both: 'Both legs',
    left: 'Left leg',
    right: 'Right leg',
  } satisfies Record<RatioComponent['role'], string>,
  sideNote: (test: string, n: number, of: number) => `${test}, ${n} of ${count(of, 'effort', 'efforts')}`,
  sessionOf: (when: string) => `Session of ${when}`,
  errorFrom: {
    adopted: 'error of the adopted study',
    sessions: 'error from the sessions',
    trials: 'error from this session’s efforts',
  },
  noErrorFrom: 'error not known',
  caution: {
    'first-session': 'A test was done for the first time: getting to know it may still change the value.',
    'days-apart': 'Days lie between the tests.',
    'arms-differ': 'The arms were not held alike, which changes a jump’s height.',
    dip: 'A squat jump that counts sank before its push, which draws the ratio towards 1.',
    'squat-jump-used': 'Made with the squat jump, whose index repeats worse than that of the countermovement jump.',
    'error-of-trials': 'An error is that of one session’s efforts; from day to day it is larger.',
  } satisfies Record<RatioCaution, string>,
  daysApart: (days: number) => `${count(days, 'day lies', 'days lie')} between the tests.`,
  newer: {
    'too-far-apart': (test: string, when: string) =>
      `Newer, but no other test near enough is left for it: ${test} of ${when}.`,
    'other-method': (test: string, when: string) =>
      `Newer, but the test near it was judged by another method: ${test} of ${when}.`,
    'no-value': (test: string, when: string) => `Newer, but a value is not above zero: ${test} of ${when}.`,
  } satisfies Record<RatioView['newer'][number]['reason'], (test: string, when: string) => string>,
  history: 'Over time',
  every: (n: number) => (n === 1 ? 'The one value' : `All ${n} values`),
  historyTable: { when: 'Day', value: 'Value', interval: '95 %', word: 'Says' },
  lack: {
    'test-missing': {
      title: (tests: string) => `Not tested yet: ${tests}.`,
      next: 'Add it to the next test day.',
    },
    'no-value': {
      title: (tests: string) => `No effort that counts in ${tests}.`,
      next: 'Look at its trials, or test again.',
    },
    'too-far-apart': {
      title: (tests: string, days: number) => `${tests} lie ${count(days, 'day', 'days')} apart.`,
      next: 'Test them on one day, or allow more days above.',
    },
    'other-method': {
      title: (tests: string) => `${tests} were judged by different methods.`,
      next: 'Judge the archive again with one method (Methods), then look here.',
    },
  },
  received: (n: number) =>
    `${count(n, 'session', 'sessions')} of results only came from elsewhere for it. They stand on the athlete’s page; values whose curves are not here are never mixed with our own.`,
  and: ' and ',
  profile: {
    title: 'Force and velocity of loaded jumps',
    about:
      'Mean force over mean velocity of the push-off, a point for each load. Unbroken where it was measured, dashed beyond.',
    facts: {
      f0: 'Force at no velocity, F0',
      v0: 'Velocity at no force, V0',
      powerMax: 'Largest power',
      r2: 'r² of the line',
    },
    interval: (low: string, high: string) => `95 % ${low} to ${high}`,
    few: (n: number) => `Only ${count(n, 'load', 'loads')}: beyond the points the line is extrapolated, not measured.`,
    loose: 'r² is under 0.95: the line is shown and not to be used.',
    pushOff: 'Push-off distance, cm',
    pushOffHelp: 'Stretched leg less height of the hip at the start. Empty: as the plates measured it.',
    pushOffWrong: (low: number, high: number) => `Enter ${low} to ${high} cm, or nothing.`,
    pushOffIs: { plates: 'as the plates measured it', given: 'as given' },
    head: { load: 'Load', height: 'Height', force: 'Mean force', velocity: 'Mean velocity', when: 'Session' },
    load: (kilograms: string) => `${kilograms} kg`,
    lack: {
      'no-loads': 'No loaded jump yet. Jump with at least three loads beside the unloaded jump, on one day.',
      'loads-not-written': 'No load is written down for the loaded jumps. Write it into the setup of each session.',
      'too-few-loads': (loads: number, needed: number) =>
        `${count(loads, 'load', 'loads')} so far; a line takes ${needed}. Jump with more loads.`,
      'no-push-off': 'The push-off distance is not known for this jump. Measure it and enter it here.',
      'no-fit': 'Force does not fall with velocity over these loads, so there is no line. Look at the jumps.',
    },
    loadMissing: (n: number) =>
      `${n === 1 ? '1 session has no load written down and stays out' : `${n} sessions have no load written down and stay out`}.`,
    earlier: 'Earlier profiles',
    points: 'Each load',
    loads: (n: number) => count(n, 'load', 'loads'),
  },
  later: (n: number) =>
    `No session up to this day; ${count(n, 'session is', 'sessions are')} of later days. Choose a later day.`,
  nothing: 'No session yet. Ratios appear here as soon as two tests of a ratio are recorded.',
  foot: 'A ratio does not diagnose and is no plan of training by itself. Errors of the sides are taken as independent.',
};
