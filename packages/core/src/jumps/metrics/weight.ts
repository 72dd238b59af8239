import type { JumpContext } from '../jump-context.ts';
import { everyKind } from '../kinds.ts';
import { found, massOf, none, plain, term, weightOf } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const fixed = {
  ...plain,
  dependsOnOnset: false,
  better: 'neither',
  kinds: everyKind,
  source: 'Owen et al. 2014, J Strength Cond Res 28(6):1552-1558 (one quiet second)',
} as const;

const where = ({ events }: JumpContext) =>
  events.weighing.ok ? { interval: { start: events.weighing.value.start, end: events.weighing.value.end } } : {};

/** Weight and mass of body and load, from the quiet second. */
export const weightMetrics: readonly JumpMetricDefinition[] = [
  {
    ...fixed,
    id: 'system_weight',
    unit: 'N',
    title: 'Weight of body and load',
    formula: 'W, the mean of F over the weighing window',
    compute: (jump) => {
      const weight = weightOf(jump);
      return weight.ok ? found(weight.value, 'N', where(jump)) : none(weight.reason);
    },
  },
  {
    ...fixed,
    id: 'system_mass',
    unit: 'kg',
    title: 'Mass of body and load',
    formula: 'm = W / g',
    compute: (jump) => {
      const mass = massOf(jump);
      if (!mass.ok) return none(mass.reason);
      return found(mass.value, 'kg', { ...where(jump), terms: [term('g', jump.gravity, 'm/s2')] });
    },
  },
];
