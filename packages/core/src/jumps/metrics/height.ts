import { touchesGap } from '../../signal/index.ts';
import { workEnergyHeight } from '../height.ts';
import type { JumpContext } from '../jump-context.ts';
import { single } from '../kinds.ts';
import { positionAt } from '../motion.ts';
import {
  flightSpan,
  flightTime,
  found,
  heightFromFlight,
  heightFromVelocity,
  none,
  plain,
  takeOffVelocity,
  term,
  withMotion,
} from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const linthorne = 'Linthorne 2001, Am J Phys 69(11):1198-1204, doi 10.1119/1.1397460';
const moir = 'Moir 2008, Meas Phys Educ Exerc Sci 12(4):207-218, doi 10.1080/10913670802349766';

const fixed = { ...plain, unit: 'm', better: 'higher', kinds: single } as const;

const groundSpan = (jump: JumpContext) => ({
  start: jump.events.firstTouchdown ?? (jump.onset.ok ? jump.onset.value.index : jump.events.takeOff),
  end: jump.events.takeOff,
});

/** Height from the velocity at take-off, h = v^2 / (2 g). */
export function heightFromImpulse(jump: JumpContext) {
  const velocity = takeOffVelocity(jump);
  if (!velocity.ok) return none(velocity.reason);
  if (!(velocity.value > 0)) return none('not-defined');
  return found(heightFromVelocity(velocity.value, jump.gravity), 'm', {
    interval: groundSpan(jump),
    terms: [term('take-off velocity', velocity.value, 'm/s'), term('g', jump.gravity, 'm/s2')],
  });
}

function fromFlight(jump: JumpContext) {
  const { takeOff, touchdown } = jump.events;
  if (touchesGap(jump.forces, takeOff, touchdown)) return none('gap-in-interval');
  const time = flightTime(jump);
  return found(heightFromFlight(time, jump.gravity), 'm', {
    interval: flightSpan(jump),
    terms: [term('flight time', time, 's'), term('g', jump.gravity, 'm/s2')],
  });
}

function difference(jump: JumpContext) {
  const impulse = heightFromImpulse(jump);
  const flight = fromFlight(jump);
  if ('reason' in impulse) return none(impulse.reason);
  if ('reason' in flight) return none(flight.reason);
  return found(flight.value - impulse.value, 'm', {
    interval: flightSpan(jump),
    terms: [term('from flight time', flight.value, 'm'), term('from impulse', impulse.value, 'm')],
  });
}

/** The four families of jump height, kept apart: they differ by up to 15 cm for one and the same jump. */
export const heightMetrics: readonly JumpMetricDefinition[] = [
  {
    ...fixed,
    id: 'jump_height',
    title: 'Jump height',
    formula:
      'v_to^2 / (2 g), v_to = (1 / m) integral of (F - W) from onset (drop jump: from the first touchdown, with v_td) to take-off',
    source: `${linthorne}; ${moir} (advised where there is a force plate)`,
    compute: heightFromImpulse,
  },
  {
    ...fixed,
    id: 'jump_height_flight_time',
    title: 'Jump height from flight time',
    formula: 'g t_f^2 / 8; too high when the landing is deeper than the take-off',
    source: linthorne,
    compute: fromFlight,
  },
  {
    ...fixed,
    id: 'jump_height_difference',
    title: 'Height from flight time less height from impulse',
    formula: 'h_FT - h_IM',
    better: 'neither',
    source: `${moir} (both heights); the difference as a sign of quality is a proposal of this program`,
    compute: difference,
  },
  {
    ...fixed,
    id: 'jump_rise_before_take_off',
    title: 'Rise before take-off',
    kinds: ['countermovement'],
    formula: 's_to, position of the centre of mass at take-off from where it stood',
    better: 'neither',
    source: moir,
    compute: (jump) =>
      withMotion(jump, (motion) => found(positionAt(motion, jump.events.takeOff), 'm', { interval: groundSpan(jump) })),
  },
  {
    ...fixed,
    id: 'jump_height_with_rise',
    title: 'Jump height from standing, with the rise before take-off',
    kinds: ['countermovement'],
    formula: 'v_to^2 / (2 g) + s_to',
    source: moir,
    compute: (jump) =>
      withMotion(jump, (motion) => {
        const height = heightFromImpulse(jump);
        if ('reason' in height) return height;
        const rise = positionAt(motion, jump.events.takeOff);
        return found(height.value + rise, 'm', {
          interval: groundSpan(jump),
          terms: [term('from impulse', height.value, 'm'), term('rise before take-off', rise, 'm')],
        });
      }),
  },
  {
    ...fixed,
    id: 'jump_height_work_energy',
    title: 'Jump height from work',
    kinds: ['countermovement', 'squat'],
    formula:
      '(1 / (m g)) integral of (F - W) ds from onset to take-off; equal to the height from impulse, kept to show that it is',
    better: 'neither',
    source: linthorne,
    compute: (jump) =>
      withMotion(jump, (motion) => {
        const { height, work } = workEnergyHeight(jump.forces, motion, motion.start, jump.events.takeOff, jump.gravity);
        return found(height, 'm', { interval: groundSpan(jump), terms: [term('net work', work, 'N.m')] });
      }),
  },
];
