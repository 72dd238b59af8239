import type { RiseForm, RiseShape } from './rise.ts';

/** Which feet carry the athlete. */
export type SimulatedLimbs = 'both' | 'left' | 'right';

/** How fast the athlete pulls; decides the half time of the rise. */
export type PullPace = 'slow' | 'medium' | 'fast';

/** Everything one simulated pull is made of, before faults. Forces in N, times in s, shares as fractions. */
export interface PullParameters {
  readonly sampleRate: number;
  readonly limbs: SimulatedLimbs;
  readonly bodyWeight: number;
  /** Plateau force above standing that the rise tends to. */
  readonly netForce: number;
  readonly pace: PullPace;
  readonly rise: RiseShape;
  /** Standing still in position before the pull; the true onset lies at this time (after stepping on, if any). */
  readonly onset: number;
  /** From the onset to letting go. */
  readonly hold: number;
  readonly release: number;
  /** Recorded after the release. */
  readonly after: number;
  /** Pull of the bar while standing, above body weight. */
  readonly tension: number;
  /** Loss of plateau force per second as a share, from `fatigueFrom` after the onset. */
  readonly fatigue: number;
  readonly fatigueFrom: number;
  /** Tremor and slow unsteadiness of the plateau: amplitude as share of net force, frequency in Hz, phase in turns. */
  readonly tremor: Oscillation;
  readonly wander: Oscillation;
  /** Breathing: amplitude (half of peak to peak) in N. */
  readonly breathing: Oscillation;
  /** Weight moved from one foot to the other and back; the sum does not change. */
  readonly exchange: Oscillation;
  /** Right foot's share of the standing load and of the pull. */
  readonly standingShareRight: number;
  readonly pullShareRight: number;
  /** N/s on the sum, zero at the onset. */
  readonly drift: number;
  /** White noise of each plate, SD in N. */
  readonly plateNoise: number;
  /** Smallest step of a plate's values in N; 0 for none. */
  readonly quantum: number;
  /** Largest force a plate can give, N. */
  readonly plateRange: number;
  /** When the athlete steps on, s; absent: stands on the plates from the first sample. */
  readonly stepOnAt?: number;
  /** True: steps off half a second after the release. */
  readonly stepOff: boolean;
}

export interface Oscillation {
  readonly amplitude: number;
  /** Hz. */
  readonly frequency: number;
  /** Turns, 0 to 1. */
  readonly phase: number;
}

/** A pair of limits; values are drawn evenly between them. */
export type DrawnRange = readonly [low: number, high: number];

/**
 * Ranges a good pull is drawn from.
 *
 * From the specification of the table of truth: body mass, plate noise, breathing, drift. Net force, rates of rise and time
 * to peak keep gross force within about 22 to 40 N/kg and 0 to 200 ms rates within the broad published bands (methods
 * reference, 3.4). The others are this simulation's own choice and say what a coach would accept without a word.
 */
export const goodPull = {
  bodyMass: [45, 140] as DrawnRange,
  /** Net force as a multiple of body weight. */
  netForceShare: [1.3, 3] as DrawnRange,
  halfTime: { fast: [0.07, 0.11], medium: [0.11, 0.16], slow: [0.16, 0.22] } as Record<PullPace, DrawnRange>,
  forms: ['power-exponential', 'sigmoid', 'second-order'] as readonly [RiseForm, ...RiseForm[]],
  paces: ['slow', 'medium', 'fast'] as readonly [PullPace, ...PullPace[]],
  powerBend: [1.3, 2.2] as DrawnRange,
  sigmoidBend: [4, 5] as DrawnRange,
  slowShare: [0.08, 0.25] as DrawnRange,
  slowTime: [0.4, 0.9] as DrawnRange,
  standing: [2.4, 3.4] as DrawnRange,
  hold: [3.2, 4.6] as DrawnRange,
  release: [0.15, 0.4] as DrawnRange,
  after: [0.9, 1.3] as DrawnRange,
  /** Share of the room that keeps the noise-free standing curve of the last second within +-25 N of body weight. */
  tensionShare: [-1, 1] as DrawnRange,
  fatigue: [0.015, 0.05] as DrawnRange,
  fatigueFrom: [0.8, 1.8] as DrawnRange,
  tremorAmplitude: [0.002, 0.008] as DrawnRange,
  tremorFrequency: [7, 11] as DrawnRange,
  wanderAmplitude: [0.003, 0.012] as DrawnRange,
  wanderFrequency: [0.6, 1.8] as DrawnRange,
  breathingAmplitude: [2, 15] as DrawnRange,
  breathingFrequency: [0.2, 0.35] as DrawnRange,
  exchangeAmplitude: [3, 25] as DrawnRange,
  exchangeFrequency: [0.1, 0.5] as DrawnRange,
  standingShareRight: [0.44, 0.56] as DrawnRange,
  /** Added to the standing share. */
  pullShareShift: [-0.04, 0.04] as DrawnRange,
  drift: [-5, 5] as DrawnRange,
  plateNoise: [0.2, 5] as DrawnRange,
} as const;
