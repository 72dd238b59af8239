import type { Measured, MetricEvidence } from '../../metrics/metric.ts';
import { have, lack, type Outcome, type Reason } from '../../outcome.ts';
import type { SampleSpan } from '../../recording/sample.ts';
import { meanOf, touchesGap, trapezoid } from '../../signal/index.ts';
import type { JumpPhase } from '../events.ts';
import type { JumpContext } from '../jump-context.ts';
import { type Motion, velocityAt } from '../motion.ts';
import { phaseOf } from '../phases.ts';
import type { JumpMetricDefinition } from './metric.ts';

/** No value, and why. */
export const none = (reason: Reason): Measured => ({ reason });

/** A value with its evidence; one that is not finite becomes the reason `not-defined`. */
export const found = (value: number, unit: string, evidence: MetricEvidence): Measured =>
  Number.isFinite(value) ? { value, unit, evidence } : { reason: 'not-defined', evidence };

export type Terms = NonNullable<MetricEvidence['terms']>;

export const term = (name: string, value: number, unit: string): Terms[number] => ({ name, value, unit });

/** A value from the motion, or the motion's reason. */
export const withMotion = (jump: JumpContext, compute: (motion: Motion) => Measured): Measured =>
  jump.motion.ok ? compute(jump.motion.value) : none(jump.motion.reason);

/** W, or its reason. */
export const weightOf = (jump: JumpContext): Outcome<number> =>
  jump.bodyWeight.ok ? have(jump.bodyWeight.value.value) : jump.bodyWeight;

/** Mass of body and load, kg. */
export const massOf = (jump: JumpContext): Outcome<number> => {
  const weight = weightOf(jump);
  return !weight.ok ? weight : weight.value > 0 ? have(weight.value / jump.gravity) : lack('not-defined');
};

/** A phase whose samples are all there, or why not: the motion's reason, a gap, or `not-defined` where the jump has none. */
export function phase(jump: JumpContext, id: JumpPhase['id']): Outcome<JumpPhase> {
  const found = phaseOf(jump.events, id);
  if (found === undefined) {
    const timed = id !== 'flight';
    if (timed && !jump.motion.ok) return jump.motion;
    return lack(id === 'landing' ? 'interval-past-end' : 'not-defined');
  }
  return touchesGap(jump.forces, found.start, found.end) ? lack('gap-in-interval') : have(found);
}

/** A value over a phase, or the phase's reason. */
export const overPhase = (
  jump: JumpContext,
  id: JumpPhase['id'],
  compute: (phase: JumpPhase) => Measured,
): Measured => {
  const there = phase(jump, id);
  return there.ok ? compute(there.value) : none(there.reason);
};

/** Seconds between two samples. */
export const seconds = (jump: JumpContext, from: number, to: number): number => (to - from) / jump.forces.sampleRate;

/** Net impulse from one sample to another, N.s. */
export const netImpulse = (jump: JumpContext, weight: number, from: number, to: number): number =>
  trapezoid(jump.forces.total, from, to) / jump.forces.sampleRate - weight * seconds(jump, from, to);

/** Velocity at take-off by impulse and momentum, m/s, or the motion's reason. */
export const takeOffVelocity = (jump: JumpContext): Outcome<number> =>
  jump.motion.ok ? have(velocityAt(jump.motion.value, jump.events.takeOff)) : jump.motion;

/** Height of a rise from a velocity, m: v^2 / (2 g). */
export const heightFromVelocity = (velocity: number, gravity: number): number => (velocity * velocity) / (2 * gravity);

/** Height of a flight from its time, m: g t^2 / 8. */
export const heightFromFlight = (time: number, gravity: number): number => (gravity * time * time) / 8;

/** Seconds in the air. */
export const flightTime = (jump: JumpContext): number => seconds(jump, jump.events.takeOff, jump.events.touchdown);

/** The flight as an interval. */
export const flightSpan = (jump: JumpContext): SampleSpan => ({
  start: jump.events.takeOff,
  end: jump.events.touchdown,
});

/** Mean of samples from the first to the last, both included. */
export const inclusiveMean = (force: Float64Array, from: number, to: number): number => meanOf(force, from, to + 1);

/** Facts most jump metrics share. */
export const plain = { version: 1, dependsOnOnset: true, rate: false } as const;

/** A metric divided by the mass of body and load. */
export const perKilogram = (
  base: JumpMetricDefinition,
  id: string,
  title: string,
  unit: string,
): JumpMetricDefinition => ({
  ...base,
  id,
  title,
  unit,
  formula: `${base.formula}; divided by the mass of body and load, W / g`,
  compute: (jump) => {
    const value = base.compute(jump);
    if ('reason' in value) return value;
    const mass = massOf(jump);
    if (!mass.ok) return none(mass.reason);
    return found(value.value / mass.value, unit, {
      ...value.evidence,
      terms: [...(value.evidence.terms ?? []), term('mass', mass.value, 'kg')],
    });
  },
});
