import { single } from '../kinds.ts';
import type { Motion } from '../motion.ts';
import { found, none, overPhase, perKilogram, plain, withMotion } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const source = 'Owen et al. 2014, J Strength Cond Res 28(6):1552-1558 (P = F v, peak within 1 % at 1000 Hz)';

/** The largest F v from one sample to another, both included, W, and its first sample. */
function largestPower(force: Float64Array, { velocity, start }: Motion, from: number, to: number) {
  let at = -1;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = from; i <= to; i++) {
    const power = (force[i] as number) * (velocity[i - start] as number);
    if (power > most) {
      most = power;
      at = i;
    }
  }
  return { most, at };
}

/** Mean of F v from one sample to another, both included, W. */
function meanPowerOver(force: Float64Array, { velocity, start }: Motion, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i <= to; i++) sum += (force[i] as number) * (velocity[i - start] as number);
  return sum / (to - from + 1);
}

const peakPower: JumpMetricDefinition = {
  ...plain,
  id: 'propulsion_peak_power',
  unit: 'W',
  title: 'Peak power of propulsion',
  formula: 'largest F v over the phase of propulsion, both ends included',
  source,
  better: 'higher',
  kinds: single,
  compute: (jump) =>
    withMotion(jump, (motion) =>
      overPhase(jump, 'propulsion', ({ start, end }) => {
        const { most, at } = largestPower(jump.forces.total, motion, start, end);
        return found(most, 'W', { interval: { start: at, end: at } });
      }),
    ),
};

const meanPower: JumpMetricDefinition = {
  ...plain,
  id: 'propulsion_mean_power',
  unit: 'W',
  title: 'Mean power of propulsion',
  formula: 'mean of the samples of F v over the phase of propulsion, both ends included',
  source,
  better: 'higher',
  kinds: single,
  compute: (jump) =>
    withMotion(jump, (motion) =>
      overPhase(jump, 'propulsion', ({ start, end }) => {
        if (end < start) return none('not-defined');
        return found(meanPowerOver(jump.forces.total, motion, start, end), 'W', { interval: { start, end } });
      }),
    ),
};

/** Power of the push. */
export const powerMetrics: readonly JumpMetricDefinition[] = [
  peakPower,
  perKilogram(peakPower, 'propulsion_peak_power_relative', 'Peak power of propulsion per kg', 'W/kg'),
  meanPower,
  perKilogram(meanPower, 'propulsion_mean_power_relative', 'Mean power of propulsion per kg', 'W/kg'),
];
