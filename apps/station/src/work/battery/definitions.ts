import type { RatioComponent, RatioId } from '@sthene/contract';

/** One side of a ratio: a value of a test, of the first of these tests that somebody has a value of. */
export interface Side {
  readonly role: RatioComponent['role'];
  readonly tests: readonly string[];
  readonly metric: string;
}

/** A ratio of values of tests that are done apart. */
export interface RatioDefinition {
  readonly id: RatioId;
  readonly title: string;
  readonly unit: string;
  readonly formula: string;
  readonly source: string;
  readonly limits: readonly number[];
  readonly sides: readonly Side[];
  /** Its sides are one and the same measure, so one method must have made them. */
  readonly oneMethod: boolean;
}

/** Every ratio, in the order in which they are shown. */
export const ratioDefinitions: readonly RatioDefinition[] = [
  {
    id: 'dynamic_strength_index',
    title: 'Dynamic strength index',
    unit: '1',
    formula:
      'peak force of propulsion of the jump / peak force of the isometric mid-thigh pull; body weight is in both',
    source:
      'Sheppard, Chapman and Taylor 2011, J Aust Strength Cond 19(2):4-10; limits 0.60 and 0.80 as in PLOS ONE 2025, e0331519; countermovement jump rather than squat jump: Comfort et al. 2018, Int J Sports Physiol Perform 13(3):320-325',
    limits: [0.6, 0.8],
    sides: [
      { role: 'jump', tests: ['countermovement-jump', 'squat-jump'], metric: 'propulsion_peak_force' },
      { role: 'isometric', tests: ['imtp'], metric: 'peak_force' },
    ],
    oneMethod: false,
  },
  {
    id: 'eccentric_utilisation_ratio',
    title: 'Eccentric utilisation ratio',
    unit: '1',
    formula: 'height of the countermovement jump / height of the squat jump',
    source: 'McGuigan et al. 2006, J Strength Cond Res 20(4):992-995',
    limits: [1],
    sides: [
      { role: 'countermovement', tests: ['countermovement-jump'], metric: 'jump_height' },
      { role: 'squat', tests: ['squat-jump'], metric: 'jump_height' },
    ],
    oneMethod: true,
  },
  {
    id: 'bilateral_index',
    title: 'Bilateral index of the pull',
    unit: '%',
    formula:
      '100 (both / (left + right) - 1) of net peak forces; net, because body weight would count once in one and twice in the other; negative is a deficit',
    source: 'Howard and Enoka 1991, J Appl Physiol 70(1):306-316 (from memory)',
    limits: [0],
    sides: [
      { role: 'both', tests: ['imtp'], metric: 'peak_force_net' },
      { role: 'left', tests: ['imtp-left'], metric: 'peak_force_net' },
      { role: 'right', tests: ['imtp-right'], metric: 'peak_force_net' },
    ],
    oneMethod: true,
  },
];
