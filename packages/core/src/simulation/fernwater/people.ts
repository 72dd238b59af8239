import type { PullPace } from '../parameters.ts';

/** A squad of the invented rowing club. */
export interface FernwaterSquad {
  readonly id: string;
  readonly name: string;
}

/** An invented athlete and what is true of them; none of it can be seen from outside except through pulls. */
export interface FernwaterPerson {
  readonly id: string;
  readonly givenName: string;
  readonly familyName: string;
  readonly birthYear: number;
  readonly sex: 'female' | 'male';
  readonly squad: string;
  /** kg at the first test day, and change per year. */
  readonly bodyMass: number;
  readonly bodyMassPerYear: number;
  /** True net force of the mid-thigh pull at the first test day, N, and its change per year as a share. */
  readonly strength: number;
  readonly strengthPerYear: number;
  /** Typical error between sessions and scatter between trials of one session, as shares. */
  readonly typicalError: number;
  readonly trialError: number;
  /** Share of strength not yet shown in the first session. */
  readonly learning: number;
  readonly pace: PullPace;
  /** s from onset to half of the fast part of the rise. */
  readonly halfTime: number;
  readonly pullShareRight: number;
  /** Chance that a maximal effort goes wrong. */
  readonly faultChance: number;
  readonly barHeight: number;
  readonly kneeAngle: number;
  readonly hipAngle: number;
  /** Numbers (from 0) of test days missed. */
  readonly missed: readonly number[];
  /** What a reader of the demo should be able to find out. */
  readonly story: string;
  readonly injury?: FernwaterInjury;
}

/** A one-sided injury: from a test day on the left leg gives less, and slowly comes back. */
export interface FernwaterInjury {
  readonly fromDay: number;
  /** Added to the right share and taken from strength at first; both shrink by `recovery` from test day to test day. */
  readonly shareShift: number;
  readonly strengthLoss: number;
  readonly recovery: number;
}

export const fernwaterSquads: readonly FernwaterSquad[] = [
  { id: 'senior-eight', name: 'Senior eight' },
  { id: 'senior-four', name: 'Senior four' },
  { id: 'development', name: 'Development' },
];

type Row = readonly [
  names: readonly [given: string, family: string],
  born: readonly [year: number, sex: 'female' | 'male', squad: string],
  body: readonly [mass: number, perYear: number],
  strength: readonly [net: number, perYear: number, typicalError: number, trialError: number, learning: number],
  pull: readonly [pace: PullPace, halfTime: number, shareRight: number, faultChance: number],
  setup: readonly [bar: number, knee: number, hip: number],
  missed: readonly number[],
  story: string,
  injury?: FernwaterInjury,
];

const rows: readonly Row[] = [
  [
    ['Tobias', 'Adeyemi-Lund'],
    [1998, 'male', 'senior-eight'],
    [94, 0.3],
    [2650, 0.02, 0.03, 0.02, 0.03],
    ['fast', 0.092, 0.505, 0.12],
    [78, 138, 145],
    [4],
    'Strong and steady; gains a little.',
  ],
  [
    ['Mateusz', 'Oyelaran'],
    [2000, 'male', 'senior-eight'],
    [88, 0.5],
    [2150, 0.1, 0.025, 0.018, 0.04],
    ['medium', 0.125, 0.495, 0.12],
    [76, 136, 144],
    [5],
    'Truly improves, by about a tenth each year.',
  ],
  [
    ['Callum', 'Nakashima'],
    [1996, 'male', 'senior-eight'],
    [91, 0],
    [2480, 0, 0.035, 0.022, 0.02],
    ['medium', 0.118, 0.51, 0.15],
    [80, 140, 146],
    [2],
    'Does not change; single sessions look as if he did.',
  ],
  [
    ['Rafael', 'Brandvold'],
    [1999, 'male', 'senior-eight'],
    [97, 0.4],
    [2820, 0.015, 0.03, 0.02, 0.03],
    ['fast', 0.085, 0.5, 0.1],
    [82, 139, 145],
    [7],
    'The strongest of the eight.',
  ],
  [
    ['Ishaan', 'Verhoeven'],
    [2001, 'male', 'senior-eight'],
    [85, 0.6],
    [1980, 0.045, 0.04, 0.025, 0.05],
    ['slow', 0.175, 0.485, 0.18],
    [75, 137, 143],
    [0, 6],
    'Slow to rise to a good peak; joined a test day late.',
  ],
  [
    ['Noor', 'Castellanos'],
    [1997, 'female', 'senior-four'],
    [74, 0],
    [1720, 0.03, 0.03, 0.02, 0.03],
    ['fast', 0.095, 0.5, 0.1],
    [72, 138, 145],
    [3],
    'Fast and reliable.',
  ],
  [
    ['Ingrid', 'Mbeki-Hale'],
    [1999, 'female', 'senior-four'],
    [71, 0.2],
    [1640, 0.02, 0.03, 0.02, 0.03],
    ['medium', 0.13, 0.5, 0.12],
    [71, 136, 144],
    [1],
    'Hurt her left knee before the second spring; the right leg has carried more since.',
    { fromDay: 5, shareShift: 0.075, strengthLoss: 0.16, recovery: 0.8 },
  ],
  [
    ['Saoirse', 'Petrov'],
    [2002, 'female', 'senior-four'],
    [68, 0.3],
    [1450, 0.04, 0.035, 0.022, 0.04],
    ['medium', 0.14, 0.515, 0.15],
    [70, 139, 146],
    [6],
    'A natural lean to the right that never was an injury.',
  ],
  [
    ['Leilani', 'Fourie'],
    [1998, 'female', 'senior-four'],
    [77, -0.2],
    [1810, -0.02, 0.03, 0.02, 0.02],
    ['medium', 0.12, 0.49, 0.12],
    [73, 137, 144],
    [2, 8],
    'Loses a little each year.',
  ],
  [
    ['Emeka', 'Sorensen'],
    [2008, 'male', 'development'],
    [70, 3],
    [1350, 0.14, 0.045, 0.03, 0.09],
    ['medium', 0.15, 0.505, 0.28],
    [73, 138, 145],
    [4],
    'Growing: heavier and stronger, and learning the test.',
  ],
  [
    ['Yuki', 'Almgren'],
    [2007, 'female', 'development'],
    [60, 1.2],
    [1050, 0.08, 0.05, 0.03, 0.1],
    ['slow', 0.18, 0.5, 0.3],
    [68, 137, 144],
    [5, 7],
    'A clear learning effect in the first session.',
  ],
  [
    ['Dario', 'Kowhai'],
    [2008, 'male', 'development'],
    [66, 2.5],
    [1220, 0.1, 0.05, 0.035, 0.08],
    ['medium', 0.145, 0.49, 0.3],
    [72, 139, 146],
    [1],
    'Noisy from day to day; needs patience before a word is said.',
  ],
];

export const fernwaterPeople: readonly FernwaterPerson[] = rows.map(
  ([[givenName, familyName], [birthYear, sex, squad], body, strength, pull, setup, missed, story, injury], i) => ({
    id: `fernwater-${String(i + 1).padStart(2, '0')}`,
    givenName,
    familyName,
    birthYear,
    sex,
    squad,
    bodyMass: body[0],
    bodyMassPerYear: body[1],
    strength: strength[0],
    strengthPerYear: strength[1],
    typicalError: strength[2],
    trialError: strength[3],
    learning: strength[4],
    pace: pull[0],
    halfTime: pull[1],
    pullShareRight: pull[2],
    faultChance: pull[3],
    barHeight: setup[0],
    kneeAngle: setup[1],
    hipAngle: setup[2],
    missed,
    story,
    ...(injury ? { injury } : {}),
  }),
);
