import { builtInProtocols, defaultMethod, methodReference, protocolReference } from '@sthene/core';
import { reliabilityStudy } from '@sthene/core/stats';
import type { AthleteInput } from '../src/input/athlete.ts';
import type { ChangeFacts, MethodFacts, MetricFacts, ReportFrame } from '../src/input/common.ts';
import type { ReliabilityInput } from '../src/input/reliability.ts';
import type { SessionInput } from '../src/input/session.ts';
import type { SquadInput } from '../src/input/squad.ts';

/** Invented people and numbers of the invented rowing club Fernwater. */
export const frame: ReportFrame = {
  language: 'en',
  lab: { name: 'Fernwater Rowing Club' },
  demo: false,
  software: 'Sthene 0.1.0',
  zone: 'Europe/Vienna',
  unknownAge: 'as-minor',
};

export const peakForce: MetricFacts = {
  id: 'peak_force',
  title: 'Peak force',
  unit: 'N',
  formula: 'F_p',
  source: 'Haff et al. 2015',
  better: 'higher',
};

export const standard: MethodFacts = { ...methodReference(defaultMethod), document: defaultMethod };
const pull = builtInProtocols.get('imtp');
export const pullProtocol = protocolReference((pull as NonNullable<typeof pull>).document);

export const change: ChangeFacts = {
  reference: 'last',
  sessions: ['s5'],
  value: 3120,
  difference: 168,
  percent: 5.4,
  band: { low: 2951, high: 3299, level: 0.95 },
  intervals: [
    { low: 108, high: 228, level: 0.5 },
    { low: 22, high: 314, level: 0.9 },
    { low: -6, high: 342, level: 0.95 },
  ],
  more: 0.912,
  less: 0.003,
  within: 0.085,
  detectable: 174,
  rigs: { standard: 12 },
  word: "inside the test's noise",
  alike: 'probably stronger',
  unlike: ['Bar height above the plates', 'Method'],
  byChance: 0.031,
  confirmable: 246,
  halve: 4,
};

const values = [2850, 2992, 3041, 3010, 3120, 3288];

export const oona: AthleteInput = {
  person: { name: 'Oona Väisänen', code: 'FW07', birthDate: '2001-05-14' },
  test: 'imtp',
  metric: peakForce,
  sessions: values.map((value, i) => ({
    id: `s${i + 1}`,
    at: `2026-0${i + 2}-1${i}T08:30:00.000Z`,
    value,
    unit: 'N',
    n: 3,
    maximal: i === 2 ? 4 : 3,
    sd: 31.2 + i,
    familiarisation: i === 0,
    unlike: i === 4 ? ['Bar height above the plates'] : [],
  })),
  scale: 'log',
  noise: {
    squad: { error: { value: 1.94, df: 24 }, interval: { low: 1.5, high: 2.7, level: 0.95 }, people: 9, sessions: 41 },
    own: { value: 1.6, df: 3 },
    used: { value: 1.9, df: 13 },
    worthwhile: 1.2,
  },
  best: 's6',
  changes: [change],
  against: 'last',
  made: { methods: [standard], sampleRates: [1000], protocols: [pullProtocol], rigChecks: [] },
  uncertainty: {
    value: 3288,
    expanded: 8.4,
    unit: 'N',
    coverage: 2,
    unknown: ['gain', 'plate-gain', 'repeatability', 'linearity', 'synchronisation'],
  },
};

/** The same person, 16 years old on the day of the newest session. */
export const youngOona: AthleteInput = { ...oona, person: { ...oona.person, birthDate: '2010-01-20' } };

export const eight: SquadInput = {
  squad: 'Senior eight',
  test: 'imtp',
  metric: peakForce,
  scale: 'log',
  rows: [
    {
      person: { name: '=SUM(A1) Bexley', code: 'FW01', birthDate: '1999-03-02' },
      sessions: 4,
      last: '2026-07-15T08:00:00.000Z',
      value: { value: 3288, n: 3 },
      z: 1.21,
      change: { ...change, word: 'stronger', alike: 'stronger', unlike: [] },
    },
    {
      person: { name: 'Young Oona', code: 'FW02', birthDate: '2010-01-20' },
      sessions: 2,
      last: '2026-07-14T08:00:00.000Z',
      value: { value: 2104, n: 2 },
      z: -1.37,
      change,
    },
    { person: { name: 'Pál Szőke', code: 'FW03' }, sessions: 0 },
  ],
};

export const log: SessionInput = {
  person: oona.person,
  test: 'imtp',
  startedAt: '2026-07-15T22:30:00.000Z',
  summary: { value: 3288, unit: 'N', n: 2, sd: 36.2 },
  uncertainty: { value: 3288, expanded: 19.6, unit: 'N', coverage: 2, unknown: [] },
  trials: [
    {
      order: 1,
      effort: 'submaximal',
      state: 'counts',
      verdict: 'counts',
      peakForce: 1800,
      rate200: 4100,
      unit: 'N',
      checks: [],
      decisions: [],
    },
    {
      order: 2,
      effort: 'maximal',
      state: 'counts',
      verdict: 'counts',
      peakForce: 3310,
      rate200: 8120,
      unit: 'N',
      checks: [],
      decisions: [],
      recording: { name: 'pull-2.csv', sha256: 'ab'.repeat(32), sampleRate: 1000 },
    },
    {
      order: 3,
      effort: 'maximal',
      state: 'overruled',
      verdict: 'repeat',
      peakForce: 3266,
      rate200: 7900,
      unit: 'N',
      checks: [{ id: 'pretension', status: 'fail', value: 62, limit: 50, unit: 'N' }],
      decisions: [
        {
          kind: 'overrule-counts',
          reason: 'Slack was taken out on purpose.',
          by: 'Wren',
          at: '2026-07-15T22:40:00.000Z',
        },
      ],
    },
  ],
  setup: { bar_height: 71.5, grip: 'mixed', belt: false, knee_angle: 140 },
  fields: (pull as NonNullable<typeof pull>).document.setupFields,
  bodyWeight: { value: 702.4, from: 'weighing' },
  gravity: 9.80665,
  rig: 'Boathouse',
  notes: '',
  methods: [standard],
  protocol: { ...pullProtocol, document: (pull as NonNullable<typeof pull>).document },
};

// Weir 2005, J Strength Cond Res 19:231-240, set A.
const found = reliabilityStudy(
  [
    [146, 140],
    [148, 152],
    [170, 152],
    [90, 99],
    [157, 145],
    [156, 153],
    [176, 167],
    [205, 218],
  ],
  'unit',
);

export const weir: ReliabilityInput = {
  test: 'imtp',
  metric: peakForce,
  scale: 'unit',
  sessions: 2,
  study: found.ok ? found.value : undefined,
  flow: {
    people: 8,
    sessions: 24,
    efforts: 90,
    maximal: 76,
    verdicts: { counts: 60, lookAgain: 6, repeat: 9, notAnalysed: 1 },
    checks: [{ id: 'pretension', failed: 7, warned: 2 }],
    overruled: [{ by: 'Wren', n: 2 }],
    excluded: [{ by: 'Wren', n: 1 }],
    onsetByHand: [],
    counting: 61,
    familiarisation: 20,
    older: 0,
    used: 41,
    usedSessions: 16,
  },
  measured: {
    sampleRates: [{ value: 1000, n: 41 }],
    methods: [{ ...standard, n: 41 }],
    applications: ['sthene 0.1.0'],
    gravities: [9.80665],
    weights: [{ from: 'weighing', n: 41 }],
    rigs: ['Boathouse'],
    protocols: [
      { ...pullProtocol, n: 16, cue: 'Push the ground away as fast and as hard as you can.', restSeconds: 120 },
    ],
    withoutProtocol: 0,
    setup: [
      { id: 'bar_height', title: 'Bar height above the plates', unit: 'cm', n: 16, range: { low: 68, high: 74.5 } },
      { id: 'grip', title: 'Grip', n: 16, choices: [{ value: 'mixed', n: 16 }] },
    ],
    from: '2026-01-10T09:00:00.000Z',
    until: '2026-07-15T08:30:00.000Z',
  },
};
