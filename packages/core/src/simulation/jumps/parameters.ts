import type { JumpKind } from '../../protocols/protocol.ts';

/** Everything that makes a simulated jump. Times in s, lengths in m, masses in kg, forces in N. */
export interface JumpParameters {
  readonly kind: JumpKind;
  readonly sampleRate: number;
  /** Body and load. */
  readonly mass: number;
  readonly gravity: number;
  /** Rise of the centre of mass after take-off. */
  readonly height: number;
  /** Quiet standing (or the hold of a squat jump) before the movement. */
  readonly quiet: number;
  /** Countermovement: largest downward acceleration as a share of g, and the time it takes to get there and back to weight. */
  readonly unload: number;
  readonly unloadTime: number;
  /** From the fastest downward movement to the first peak of the force, on to the second, and on to take-off. */
  readonly brakeTime: number;
  readonly pushTime: number;
  readonly leaveTime: number;
  /** Squat jump: depth of a dip before the push; 0 for a clean one. */
  readonly dip: number;
  /** How much lower the centre of mass lies at touchdown than at take-off. */
  readonly landingDrop: number;
  /** Length of the landing, to rest. */
  readonly landingTime: number;
  /** Drop jump: fall before the first contact. */
  readonly dropHeight: number;
  /** Drop jump and hops: time of each contact. */
  readonly contactTime: number;
  /** Hops of a series, the first flight not counted. */
  readonly hops: number;
  /** Standing after the landing. */
  readonly after: number;
  /** Share of the force on the right plate. */
  readonly shareRight: number;
  /** SD of each plate's noise. */
  readonly plateNoise: number;
  /** What each plate reads when nothing is on it. */
  readonly zero: number;
  /** SD of the swing of standing, as a share of weight, and its frequency, Hz. */
  readonly sway: number;
  readonly swayFrequency: number;
  /** Range of each plate. */
  readonly plateRange: number;
}

/** A jump of a trained person, by kind; what a specification leaves open. Times and sizes are this simulation's own choice. */
export const usualJump: Readonly<Record<JumpKind, JumpParameters>> = (() => {
  const base: Omit<JumpParameters, 'kind'> = {
    sampleRate: 1000,
    mass: 72,
    gravity: 9.80665,
    height: 0.32,
    quiet: 2.5,
    unload: 0.6,
    unloadTime: 0.36,
    brakeTime: 0.2,
    pushTime: 0.16,
    leaveTime: 0.09,
    dip: 0,
    landingDrop: 0.02,
    landingTime: 0.45,
    dropHeight: 0.3,
    contactTime: 0.2,
    hops: 10,
    after: 2.5,
    shareRight: 0.51,
    plateNoise: 1,
    zero: 0,
    sway: 0.001,
    swayFrequency: 0.3,
    plateRange: 8000,
  };
  return {
    countermovement: { ...base, kind: 'countermovement' },
    squat: { ...base, kind: 'squat', height: 0.28, brakeTime: 0.22 },
    drop: { ...base, kind: 'drop', height: 0.3 },
    repeated: { ...base, kind: 'repeated', height: 0.28, contactTime: 0.19, after: 2 },
  };
})();
