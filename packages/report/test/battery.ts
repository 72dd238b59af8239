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
    ...{ pushOff: 0.372, pushOffFrom: 'plates' },
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

/** Gross peak forces of a pull on both legs, on the left, on the right, N. */
const gross = { both: 2000, left: 1410, right: 1423 };
const gravity = 9.80665;

/** The same tests and gross forces of somebody who weighs so much: only what body weight is in differs. */
export function weighing(weight: number): BatteryInput {
  const [both, left, right] = [gross.both - weight, gross.left - weight, gross.right - weight];
  const index = 100 * (both / (left + right) - 1);
  const profile = tested.profile as NonNullable<BatteryInput['profile']>;
  return {
    ...tested,
    tests: [
      side('isometric', 'imtp', 'peak_force', 'N', gross.both, 80),
      side('jump', 'countermovement-jump', 'jump_height', 'm', 0.318, 0.011),
      side('left', 'imtp-left', 'peak_force', 'N', gross.left, 40),
      side('right', 'imtp-right', 'peak_force', 'N', gross.right, 41),
    ],
    ratios: tested.ratios.map((ratio) =>
      ratio.id !== 'bilateral_index' || ratio.current === undefined
        ? ratio
        : {
            ...ratio,
            current: {
              ...{ ...ratio.current, value: index, error: 3.1 },
              interval: { low: index - 6.1, high: index + 6.1, level: 0.95 },
              components: [
                side('both', 'imtp', 'peak_force_net', 'N', both, 60),
                side('left', 'imtp-left', 'peak_force_net', 'N', left, 32),
                side('right', 'imtp-right', 'peak_force_net', 'N', right, 30),
              ],
            },
          },
    ),
    profile: {
      ...profile,
      // Samozino 2008: F = m g (h / h_po + 1), v = sqrt(g h / 2).
      points: [0.318, 0.25, 0.19, 0.14].map((height, i) => ({
        load: 20 * i,
        force: (weight + 20 * i * gravity) * (height / profile.pushOff + 1),
        velocity: Math.sqrt((gravity * height) / 2),
      })),
    },
  };
}

/** Body weight from what a page prints of a pull: I + 1 = (B - W) / (L + R - 2 W), solved for W. */
export const weightOfPull = (share: number): number =>
  ((1 + share) * (gross.left + gross.right) - gross.both) / (2 * (1 + share) - 1);
