import type { BatteryInput, RatioFacts, RatioSideFacts } from '../src/input/battery.ts';
import { oona } from './fernwater.ts';

const side = (role: RatioSideFacts['role'], test: string, metric: string, unit: string, value: number, error: number) =>
  ({
    role,
    test,
    metric,
    unit,
    value,
    error,
    errorFrom: 'sessions',
    at: '2026-07-15T08:30:00.000Z',
    n: 3,
    maximal: 3,
  }) as const;

const index: RatioFacts = {
  id: 'dynamic_strength_index',
  unit: '1',
  source: 'Sheppard, Chapman and Taylor 2011, J Aust Strength Cond 19(2):4-10',
  limits: [0.6, 0.8],
  current: {
    at: '2026-07-15T08:30:00.000Z',
    days: 0,
    // 1560 / 2000 with CV 3 % and 4 %.
    ...{ value: 0.78, error: 0.039, interval: { low: 0.7036, high: 0.8564, level: 0.95 } },
    ...{ word: 'undecided', because: 'interval-crosses' },
    components: [
      side('jump', 'countermovement-jump', 'propulsion_peak_force', 'N', 1560, 46.8),
      side('isometric', 'imtp', 'peak_force', 'N', 2000, 80),
    ],
    cautions: ['first-session'],
  },
};

/** Invented tests of an invented rower. */
export const tested: BatteryInput = {
  person: oona.person,
  apart: 14,
  tests: [
    side('isometric', 'imtp', 'peak_force', 'N', 2000, 80),
    side('jump', 'countermovement-jump', 'jump_height', 'm', 0.318, 0.011),
    side('jump', 'imtp-left', 'peak_force', 'N', 1410, 40),
  ],
  ratios: [
    index,
    {
      ...{ id: 'eccentric_utilisation_ratio', unit: '1', source: 'McGuigan et al. 2006', limits: [1] },
      lack: { reason: 'test-missing', tests: ['squat-jump'], received: 2 },
    },
    {
      ...{ id: 'bilateral_index', unit: '%', source: 'Howard and Enoka 1991', limits: [0] },
      current: {
        at: '2026-07-15T08:30:00.000Z',
        days: 7,
        ...{ value: -18.4, error: 3.1, interval: { low: -24.5, high: -12.3, level: 0.95 }, word: 'deficit' },
        components: [
          side('both', 'imtp', 'peak_force_net', 'N', 1311, 60),
          side('left', 'imtp-left', 'peak_force_net', 'N', 801, 32),
          side('right', 'imtp-right', 'peak_force_net', 'N', 805, 30),
        ],
        cautions: ['days-apart'],
      },
    },
  ],
  profile: {
    at: '2026-07-15T08:30:00.000Z',
    points: [0.6, 0.8, 1, 1.2].map((velocity, i) => ({ load: 20 * (3 - i), velocity, force: 2800 - 1000 * velocity })),
    line: {
      ...{ f0: 2800, v0: 2.8, powerMax: 1960, r2: 0.996, accepted: true },
      intervals: {
        f0: { low: 2600, high: 3000, level: 0.95 },
        v0: { low: 2.5, high: 3.1, level: 0.95 },
        powerMax: { low: 1850, high: 2070, level: 0.95 },
      },
    },
  },
};
