import { builtInProtocols, defaultMethod, methodReference, protocolReference } from '@sthene/core';
import type { AthleteInput } from '../src/input/athlete.ts';
import type { ChangeFacts, MethodFacts, MetricFacts, ReportFrame } from '../src/input/common.ts';

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
  made: { methods: [standard], sampleRates: [1000], protocol: pullProtocol },
};
