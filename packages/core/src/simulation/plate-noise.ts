import type { PullParameters } from './parameters.ts';
import type { SeededRandom } from './random.ts';

/** Adds white noise and, where asked for, the steps of a converter; in place. */
export function addPlateNoise(force: Float64Array, p: PullParameters, random: SeededRandom): void {
  for (let n = 0; n < force.length; n++) {
    const value = force[n]! + p.plateNoise * random.gaussian();
    force[n] = p.quantum > 0 ? Math.floor(value / p.quantum + 0.5) * p.quantum : value;
  }
}
