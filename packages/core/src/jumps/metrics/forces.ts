import type { Measured } from '../../metrics/metric.ts';
import { indexOfLargest } from '../../signal/index.ts';
import type { JumpContext } from '../jump-context.ts';
import { single, withBraking } from '../kinds.ts';
import { found, inclusiveMean, none, overPhase, perKilogram, plain, seconds, term, withMotion } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const source = 'McMahon et al. 2018, Strength Cond J 40(4):96-106, doi 10.1519/SSC.0000000000000375';

type Part = 'braking' | 'propulsion';

const peak = (part: Part): JumpMetricDefinition => ({
  ...plain,
  id: `${part}_peak_force`,
  unit: 'N',
  title: `Peak force of ${part}`,
  formula: `largest F over the phase of ${part}, both ends included; weight included`,
  source,
  better: 'higher',
  kinds: part === 'braking' ? withBraking : single,
  compute: (jump) =>
    overPhase(jump, part, ({ start, end }) => {
      const at = indexOfLargest(jump.forces.total, start, end + 1);
      const force = jump.forces.total[at] as number;
      return found(force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: 'total' }] });
    }),
});

const mean = (part: Part): JumpMetricDefinition => ({
  ...plain,
  id: `${part}_mean_force`,
  unit: 'N',
  title: `Mean force of ${part}`,
  formula: `mean of the samples of F over the phase of ${part}, both ends included; weight included`,
  source,
  better: 'higher',
  kinds: part === 'braking' ? withBraking : single,
  compute: (jump) =>
    overPhase(jump, part, ({ start, end }) =>
      found(inclusiveMean(jump.forces.total, start, end), 'N', { interval: { start, end } }),
    ),
});

/** From the most negative velocity (drop jump: from touchdown) to the lowest position: what force, time and way changed. */
function descent(
  jump: JumpContext,
  compute: (rise: number, time: number, way: number) => number,
  unit: string,
): Measured {
  return withMotion(jump, (motion) => {
    const { peakNegativeVelocity, lowestPosition } = jump.events;
    if (peakNegativeVelocity === undefined || lowestPosition === undefined) return none('not-defined');
    const start = jump.events.firstTouchdown ?? peakNegativeVelocity.index;
    const end = lowestPosition.index;
    if (end <= start) return none('not-defined');
    const first = jump.forces.total[start] as number;
    const last = jump.forces.total[end] as number;
    const way = Math.abs(lowestPosition.value - (motion.position[start - motion.start] as number));
    return found(compute(last - first, seconds(jump, start, end), way), unit, {
      interval: { start, end },
      points: [
        { at: start, force: first, of: 'total' },
        { at: end, force: last, of: 'total' },
      ],
      terms: [term('change of force', last - first, 'N'), term('way', way, 'm')],
    });
  });
}

const pairs = (['braking', 'propulsion'] as const).flatMap((part): JumpMetricDefinition[] => {
  const largest = peak(part);
  const average = mean(part);
  return [
    largest,
    perKilogram(largest, `${part}_peak_force_relative`, `${largest.title} per kg`, 'N/kg'),
    average,
    perKilogram(average, `${part}_mean_force_relative`, `${average.title} per kg`, 'N/kg'),
  ];
});

/** Forces of braking and propulsion, and how braking builds up. */
export const jumpForceMetrics: readonly JumpMetricDefinition[] = [
  {
    ...plain,
    id: 'lowest_force',
    unit: 'N',
    title: 'Lowest force of unweighting',
    formula: 'smallest F from onset to the most negative velocity',
    source,
    better: 'neither',
    kinds: ['countermovement'],
    compute: (jump) =>
      withMotion(jump, () => {
        const mark = jump.events.lowestForce;
        if (mark === undefined) return none('not-defined');
        const { index: at, value: force } = mark;
        return found(force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: 'total' }] });
      }),
  },
  {
    ...plain,
    id: 'force_at_lowest_position',
    unit: 'N',
    title: 'Force at the lowest position',
    formula: 'F at the smallest s, where v is 0',
    source,
    better: 'neither',
    kinds: withBraking,
    compute: (jump) =>
      withMotion(jump, () => {
        const at = jump.events.lowestPosition?.index;
        if (at === undefined) return none('not-defined');
        const force = jump.forces.total[at] as number;
        return found(force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: 'total' }] });
      }),
  },
  ...pairs,
  {
    ...plain,
    id: 'braking_rfd',
    unit: 'N/s',
    title: 'Rate of force development in braking',
    formula: '(F at the lowest position - F at the most negative velocity) / time between them',
    source,
    better: 'higher',
    rate: true,
    kinds: ['countermovement'],
    compute: (jump) => descent(jump, (rise, time) => rise / time, 'N/s'),
  },
  {
    ...plain,
    id: 'braking_stiffness',
    unit: 'N/m',
    title: 'Stiffness of the legs in braking',
    formula:
      '(F at the lowest position - F at the most negative velocity, drop jump: at touchdown) / way of the centre of mass between them',
    source: 'common practice; the ends of the interval are those of the braking phase',
    better: 'neither',
    kinds: withBraking,
    compute: (jump) => descent(jump, (rise, _, way) => rise / way, 'N/m'),
  },
];
