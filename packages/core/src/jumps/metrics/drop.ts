import type { Measured } from '../../metrics/metric.ts';
import { indexOfLargest, touchesGap } from '../../signal/index.ts';
import type { Contact } from '../events.ts';
import type { JumpContext } from '../jump-context.ts';
import { velocityAt } from '../motion.ts';
import { heightFromImpulse } from './height.ts';
import {
  found,
  heightFromFlight,
  heightFromVelocity,
  none,
  perKilogram,
  plain,
  seconds,
  term,
  withMotion,
} from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const mcmahon = 'McMahon et al. 2021, Biomechanics 1(2):178-189, doi 10.3390/biomechanics1020015';
const open = 'open table of PMC9750644';
const fixed = { ...plain, kinds: ['drop'] } as const;

function onContact(jump: JumpContext, compute: (contact: Contact) => Measured): Measured {
  const [contact] = jump.events.contacts;
  if (contact === undefined) return none('not-defined');
  return touchesGap(jump.forces, contact.touchdown, contact.nextTouchdown) ? none('gap-in-interval') : compute(contact);
}

const contactOf = (jump: JumpContext, { touchdown, takeOff }: Contact): number => seconds(jump, touchdown, takeOff);

const contactPeak: JumpMetricDefinition = {
  ...fixed,
  id: 'contact_peak_force',
  unit: 'N',
  title: 'Peak force of contact',
  formula: 'largest F from touchdown to take-off',
  source: 'common practice',
  better: 'neither',
  compute: (jump) =>
    onContact(jump, ({ touchdown, takeOff }) => {
      const at = indexOfLargest(jump.forces.total, touchdown, takeOff + 1);
      const force = jump.forces.total[at] as number;
      return found(force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: 'total' }] });
    }),
};

/** What a drop jump has beside the metrics of other jumps. */
export const dropMetrics: readonly JumpMetricDefinition[] = [
  {
    ...fixed,
    id: 'contact_time',
    unit: 's',
    title: 'Contact time',
    formula: '(take-off - first touchdown) / fs, both by the same threshold on the sum',
    source: open,
    better: 'lower',
    compute: (jump) =>
      onContact(jump, (contact) =>
        found(contactOf(jump, contact), 's', { interval: { start: contact.touchdown, end: contact.takeOff } }),
      ),
  },
  {
    ...fixed,
    id: 'reactive_strength_index',
    unit: 'm/s',
    title: 'Reactive strength index',
    formula: 'height from flight time / contact time, as is tradition',
    source: open,
    better: 'higher',
    compute: (jump) =>
      onContact(jump, (contact) => {
        const rise = heightFromFlight(seconds(jump, contact.takeOff, contact.nextTouchdown), jump.gravity);
        const time = contactOf(jump, contact);
        return found(rise / time, 'm/s', {
          interval: { start: contact.touchdown, end: contact.nextTouchdown },
          terms: [term('height from flight time', rise, 'm'), term('contact time', time, 's')],
        });
      }),
  },
  {
    ...fixed,
    id: 'reactive_strength_index_impulse',
    unit: 'm/s',
    title: 'Reactive strength index, height from impulse',
    formula: 'jump height (from impulse) / contact time',
    source: `${mcmahon} (height from impulse); ${open} (index)`,
    better: 'higher',
    compute: (jump) => {
      const rise = heightFromImpulse(jump);
      if ('reason' in rise) return rise;
      return onContact(jump, (contact) => {
        const time = contactOf(jump, contact);
        return found(rise.value / time, 'm/s', {
          interval: { start: contact.touchdown, end: contact.takeOff },
          terms: [term('jump height', rise.value, 'm'), term('contact time', time, 's')],
        });
      });
    },
  },
  {
    ...fixed,
    id: 'reactive_strength_ratio',
    unit: '1',
    title: 'Flight time to contact time',
    formula: 't_f / t_c; the index is (g t_f / 8) times this ratio',
    source: 'common practice',
    better: 'higher',
    compute: (jump) =>
      onContact(jump, (contact) => {
        const air = seconds(jump, contact.takeOff, contact.nextTouchdown);
        const time = contactOf(jump, contact);
        return found(air / time, '1', {
          interval: { start: contact.touchdown, end: contact.nextTouchdown },
          terms: [term('flight time', air, 's'), term('contact time', time, 's')],
        });
      }),
  },
  {
    ...fixed,
    id: 'touchdown_velocity',
    unit: 'm/s',
    title: 'Velocity at touchdown',
    formula:
      'v_td = -(1 / m) integral of (F - W) from the first touchdown to the quiet stand after the landing, F = 0 in flight; by a method with the box on a plate (1 / m) integral of (F - W) from the stand on the box to the first touchdown, F = 0 in the fall',
    source: mcmahon,
    better: 'neither',
    compute: (jump) =>
      withMotion(jump, (motion) => {
        const { start } = motion;
        return found(velocityAt(motion, start), 'm/s', { interval: { start, end: start } });
      }),
  },
  {
    ...fixed,
    id: 'drop_height',
    unit: 'm',
    title: 'Drop height',
    formula: 'v_td^2 / (2 g), the real fall; the box is often another height',
    source: mcmahon,
    better: 'neither',
    compute: (jump) =>
      withMotion(jump, (motion) => {
        const velocity = velocityAt(motion, motion.start);
        if (!(velocity < 0)) return none('not-defined');
        return found(heightFromVelocity(velocity, jump.gravity), 'm', {
          interval: { start: motion.start, end: motion.start },
          terms: [term('velocity at touchdown', velocity, 'm/s')],
        });
      }),
  },
  contactPeak,
  perKilogram(contactPeak, 'contact_peak_force_relative', 'Peak force of contact per kg', 'N/kg'),
];
