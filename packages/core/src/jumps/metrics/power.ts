import { single } from '../kinds.ts';
import { velocityAt } from '../motion.ts';
import { found, none, overPhase, perKilogram, plain, withMotion } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const source = 'Owen et al. 2014, J Strength Cond Res 28(6):1552-1558 (P = F v, peak within 1 % at 1000 Hz)';

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
        let at = -1;
        let most = Number.NEGATIVE_INFINITY;
        for (let i = start; i <= end; i++) {
          const power = (jump.forces.total[i] as number) * velocityAt(motion, i);
          if (power > most) {
            most = power;
            at = i;
          }
        }
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
        let sum = 0;
        for (let i = start; i <= end; i++) sum += (jump.forces.total[i] as number) * velocityAt(motion, i);
        return found(sum / (end - start + 1), 'W', { interval: { start, end } });
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
