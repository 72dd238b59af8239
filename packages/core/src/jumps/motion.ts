import type { Forces } from '../recording/forces.ts';
import { meanOf, samplesIn } from '../signal/index.ts';

/**
 * Velocity (m/s) and position (m) of the centre of mass from a first sample on; element i belongs to sample start + i. Up is
 * positive. Acceleration at a sample is (F - W) / m.
 */
export interface Motion {
  readonly start: number;
  /** One after the last sample. */
  readonly end: number;
  readonly weight: number;
  readonly mass: number;
  readonly velocity: Float64Array;
  readonly position: Float64Array;
}

/** Samples that are air: their force counts as nothing, whatever the plates say. */
export interface Air {
  readonly takeOff: number;
  readonly touchdown: number;
}

/**
 * Integrates forward by the trapezoid rule:
 *
 * a_i = (F_i - W) / m; v_i = v_{i-1} + (a_{i-1} + a_i) / (2 fs); s_i = s_{i-1} + (v_{i-1} + v_i) / (2 fs)
 *
 * The take-off sample keeps its force, so that the velocity at take-off is that of the plain rule; the samples after it up to the
 * touchdown are air.
 *
 * @param start first sample, where velocity is `startVelocity` and position 0
 * @param end one after the last sample
 * Source: Owen et al. 2014, J Strength Cond Res 28(6):1552-1558 (trapezoid within 1 % at 1000 Hz).
 */
export function integrate(
  { total: force, sampleRate }: Pick<Forces, 'total' | 'sampleRate'>,
  start: number,
  end: number,
  weight: number,
  gravity: number,
  air: Air | undefined,
  startVelocity = 0,
): Motion {
  const count = Math.max(1, end - start);
  const motion: Motion = {
    ...{ start, end: start + count, weight, mass: weight / gravity },
    velocity: new Float64Array(count),
    position: new Float64Array(count),
  };
  motion.velocity[0] = startVelocity;
  carryOn(motion, { total: force, sampleRate }, air, start);
  return motion;
}

/**
 * Integrates a motion again from a sample whose velocity and position stand, to its end and in its own arrays; see `integrate`.
 *
 * @param from that sample
 */
export function carryOn(
  { start, end, weight, mass, velocity, position }: Motion,
  { total: force, sampleRate }: Pick<Forces, 'total' | 'sampleRate'>,
  air: Air | undefined,
  from: number,
): void {
  const half = 0.5 / sampleRate;
  const takeOff = air?.takeOff ?? Number.POSITIVE_INFINITY;
  const touchdown = air?.touchdown ?? Number.POSITIVE_INFINITY;
  const falling = (0 - weight) / mass;
  const acceleration = (i: number): number =>
    i > takeOff && i < touchdown ? falling : ((force[i] as number) - weight) / mass;
  let a = acceleration(from);
  let v = velocity[from - start] as number;
  let s = position[from - start] as number;
  for (let i = from + 1; i < end; i++) {
    const here = acceleration(i);
    const next = v + (a + here) * half;
    s += (v + next) * half;
    v = next;
    a = here;
    velocity[i - start] = v;
    position[i - start] = s;
  }
}

/** Velocity at a sample of the motion, m/s. */
export const velocityAt = (motion: Motion, sample: number): number => motion.velocity[sample - motion.start] as number;

/** Position at a sample of the motion, m. */
export const positionAt = (motion: Motion, sample: number): number => motion.position[sample - motion.start] as number;

/**
 * Velocity that stays over a quiet stand after the landing, m/s: the mean of v over the stand. Anything but nothing says that the
 * weight or the zero was wrong.
 *
 * Undefined when the stand lies outside the motion.
 */
export function restingVelocity(motion: Motion, start: number, end: number): number | undefined {
  if (start < motion.start || end > motion.end || end <= start) return undefined;
  return meanOf(motion.velocity, start - motion.start, end - motion.start);
}

/**
 * SD of a velocity that was integrated over a time from forces with white noise, m/s: SD_F sqrt(T dt) / m.
 *
 * @param noise SD of a single sample, N
 * @param mass kg
 * @param time s
 * @param rate Hz
 */
export const velocityNoise = (noise: number, mass: number, time: number, rate: number): number =>
  (noise * Math.sqrt(time / rate)) / mass;

/** Samples in a duration, at least one. */
export const atLeastOne = (seconds: number, rate: number): number => Math.max(1, samplesIn(seconds, rate));

/** The end of what can be integrated without stepping over missing samples. */
export function untilGap({ gaps }: Pick<Forces, 'gaps'>, from: number, end: number): number {
  let last = end;
  for (const gap of gaps.open) if (gap.start >= from && gap.start < last) last = gap.start;
  return last;
}
