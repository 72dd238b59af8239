import { isPlateForce } from '@sthene/capture';
import { conversionFactor, type SteadyReading, steadyReading } from '@sthene/core';
import { ProblemError } from '../../server/problem-error.ts';
import type { RigRuntime } from '../rig/rig-runtime.ts';

/** Plates that measure a vertical force, in the order of their channels. */
export const platesOf = (runtime: RigRuntime): string[] => [
  ...new Set((runtime.stream.header?.channels ?? []).filter(isPlateForce).map(({ plate }) => plate)),
];

/** Force of one plate over the last seconds, N, its cells added up; a missing sample is NaN. Nothing is taken off. */
export function plateSamples(runtime: RigRuntime, plate: string, seconds: number): Float64Array {
  const recent = runtime.stream.recent;
  if (recent === undefined) return new Float64Array(0);
  const start = Math.max(recent.oldest, recent.next - Math.round(seconds * runtime.stream.rate));
  const sum = new Float64Array(recent.next - start);
  recent.header.channels.forEach((channel, c) => {
    if (channel.plate !== plate || !isPlateForce(channel)) return;
    const newtons = channel.scale * conversionFactor(channel.unit, 'N');
    const raw = recent.copy(c, start, recent.next);
    for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] as number) + ((raw[i] as number) - channel.offset) * newtons;
  });
  return sum;
}

/** A plate is read as the mean of so many seconds of rest (methods reference 3.10: 3 to 5 s). */
export const restNeeded = 3;

/** What a plate shows now, less its zero, and for how long it has rested. */
export function plateReading(runtime: RigRuntime, plate: string, zero: number): SteadyReading | undefined {
  const found = steadyReading(plateSamples(runtime, plate, restNeeded + 1), runtime.stream.rate, restNeeded);
  return found && { ...found, mean: found.mean - zero };
}

/** The same, refused while the plate does not rest. */
export function restedReading(runtime: RigRuntime, plate: string, zero: number): SteadyReading {
  const found = plateReading(runtime, plate, zero);
  if (found !== undefined && found.steadyFor >= restNeeded - 1e-9) return found;
  throw new ProblemError(
    409,
    'plate-not-at-rest',
    `The plate "${plate}" has not been at rest for ${restNeeded} s.`,
    'Step away, touch nothing, and wait until the countdown is over.',
  );
}
