import { single, withBraking } from '../kinds.ts';
import { positionAt, velocityAt } from '../motion.ts';
import { found, massOf, none, plain, takeOffVelocity, term, withMotion } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const source = 'McMahon et al. 2018, Strength Cond J 40(4):96-106, doi 10.1519/SSC.0000000000000375';

/** Velocities, momentum and depth of the centre of mass. */
export const velocityMetrics: readonly JumpMetricDefinition[] = [
  {
    ...plain,
    id: 'take_off_velocity',
    unit: 'm/s',
    title: 'Take-off velocity',
    formula: 'v at take-off, by trapezoidal integration of (F - W) / m from onset',
    source: 'Owen et al. 2014, J Strength Cond Res 28(6):1552-1558',
    better: 'higher',
    kinds: single,
    compute: (jump) => {
      const velocity = takeOffVelocity(jump);
      if (!velocity.ok) return none(velocity.reason);
      const { takeOff } = jump.events;
      return found(velocity.value, 'm/s', { interval: { start: takeOff, end: takeOff } });
    },
  },
  {
    ...plain,
    id: 'jump_momentum',
    unit: 'N.s',
    title: 'Jump momentum',
    formula: 'm v_to (1 N.s is 1 kg m/s)',
    source,
    better: 'higher',
    kinds: single,
    compute: (jump) => {
      const velocity = takeOffVelocity(jump);
      const mass = massOf(jump);
      if (!velocity.ok) return none(velocity.reason);
      if (!mass.ok) return none(mass.reason);
      const { takeOff } = jump.events;
      return found(mass.value * velocity.value, 'N.s', {
        interval: { start: takeOff, end: takeOff },
        terms: [term('mass', mass.value, 'kg'), term('take-off velocity', velocity.value, 'm/s')],
      });
    },
  },
  {
    ...plain,
    id: 'peak_velocity',
    unit: 'm/s',
    title: 'Peak velocity',
    formula: 'largest v from the start of propulsion to take-off',
    source,
    better: 'higher',
    kinds: single,
    compute: (jump) =>
      withMotion(jump, (motion) => {
        const { propulsionStart, takeOff } = jump.events;
        if (propulsionStart === undefined) return none('not-defined');
        const { velocity, start } = motion;
        let at = propulsionStart;
        for (let i = at; i <= takeOff; i++)
          if ((velocity[i - start] as number) > (velocity[at - start] as number)) at = i;
        return found(velocityAt(motion, at), 'm/s', { interval: { start: at, end: at } });
      }),
  },
  {
    ...plain,
    id: 'peak_negative_velocity',
    unit: 'm/s',
    title: 'Peak downward velocity',
    formula: 'smallest v from onset to take-off',
    source,
    better: 'neither',
    kinds: ['countermovement'],
    compute: (jump) =>
      withMotion(jump, () => {
        const mark = jump.events.peakNegativeVelocity;
        return mark
          ? found(mark.value, 'm/s', { interval: { start: mark.index, end: mark.index } })
          : none('not-defined');
      }),
  },
  {
    ...plain,
    id: 'countermovement_depth',
    unit: 'm',
    title: 'Depth of the countermovement',
    formula: '-(smallest s from onset, or from the first touchdown of a drop jump, to take-off)',
    source,
    better: 'neither',
    kinds: withBraking,
    compute: (jump) =>
      withMotion(jump, (motion) => {
        const mark = jump.events.lowestPosition;
        if (mark === undefined) return none('not-defined');
        return found(-positionAt(motion, mark.index), 'm', { interval: { start: motion.start, end: mark.index } });
      }),
  },
];
