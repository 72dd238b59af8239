import type { Curve } from '@sthene/contract';
import { type Forces, motionOfTrial, type TrialResult } from '@sthene/core';
import { valuesOf } from './curve-model.ts';
import type { Result } from './numbers.ts';

/** A line as points: along and up. */
export type Points = readonly (readonly [number, number])[];

/** How the body moved in a jump: each against time from the onset, and the force against the position. */
export interface MotionLines {
  /** s to m/s. */
  readonly velocity: Points;
  /** s to m. */
  readonly position: Points;
  /** s to W; up to the take-off. */
  readonly power: Points;
  /** m to N; up to the take-off. */
  readonly forceOverPosition: Points;
  /** s from the onset. */
  readonly takeOff: number;
  readonly touchdown: number;
}

/** Points a line has at most; a screen shows no more. */
const most = 400;

/**
 * The motion behind a jump's values, worked out by the core from the forces that are shown.
 *
 * @returns undefined for a series of hops, and where the jump has no weight, no onset or no curve
 */
export function motionLines(result: Result, curve: Curve): MotionLines | undefined {
  const { jump } = result;
  const total = valuesOf(curve, 'total');
  if (jump === undefined || total === undefined) return undefined;
  const span = ([start, end]: readonly [number, number]) => ({ start, end });
  const gaps = { open: curve.gaps.open.map(span), filled: curve.gaps.filled.map(span) };
  const { sampleRate, samples: sampleCount, unit } = curve;
  const forces = { total, sampleRate, sampleCount, unit, gaps, plates: [] } as unknown as Forces;
  const motion = motionOfTrial(forces, result as unknown as TrialResult);
  if (motion === undefined) return undefined;
  const last = Math.min(motion.end, jump.endOfLanding ?? jump.touchdown + Math.round(0.3 * sampleRate));
  const seconds = (sample: number) => (sample - motion.start) / sampleRate;
  const line = (end: number, point: (at: number) => readonly [number, number]): Points => {
    const step = Math.max(1, Math.ceil((end - motion.start) / most));
    const points: (readonly [number, number])[] = [];
    for (let at = motion.start; at < end; at += step) points.push(point(at));
    points.push(point(end - 1));
    return points;
  };
  const velocity = (at: number) => motion.velocity[at - motion.start] as number;
  const position = (at: number) => motion.position[at - motion.start] as number;
  const force = (at: number) => total[at] as number;
  return {
    velocity: line(last, (at) => [seconds(at), velocity(at)]),
    position: line(last, (at) => [seconds(at), position(at)]),
    power: line(jump.takeOff + 1, (at) => [seconds(at), force(at) * velocity(at)]),
    forceOverPosition: line(jump.takeOff + 1, (at) => [position(at), force(at)]),
    takeOff: seconds(jump.takeOff),
    touchdown: seconds(jump.touchdown),
  };
}
