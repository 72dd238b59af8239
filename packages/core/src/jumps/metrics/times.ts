import { touchesGap } from '../../signal/index.ts';
import type { JumpPhase } from '../events.ts';
import type { JumpContext } from '../jump-context.ts';
import { fromStanding, single, withBraking } from '../kinds.ts';
import { heightFromImpulse } from './height.ts';
import { flightSpan, flightTime, found, none, overPhase, plain, seconds, term } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const mcmahon = 'McMahon et al. 2018, Strength Cond J 40(4):96-106, doi 10.1519/SSC.0000000000000375';
const ebben = 'Ebben and Petushek 2010, J Strength Cond Res 24:1983-1987 (from memory)';

function timeToTakeOff(jump: JumpContext) {
  if (!jump.onset.ok) return none(jump.onset.reason);
  const { index } = jump.onset.value;
  const { takeOff } = jump.events;
  if (touchesGap(jump.forces, index, takeOff)) return none('gap-in-interval');
  return found(seconds(jump, index, takeOff), 's', { interval: { start: index, end: takeOff } });
}

function airTime(jump: JumpContext) {
  const { takeOff, touchdown } = jump.events;
  if (touchesGap(jump.forces, takeOff, touchdown)) return none('gap-in-interval');
  return found(flightTime(jump), 's', { interval: flightSpan(jump) });
}

function modifiedIndex(jump: JumpContext) {
  const rise = heightFromImpulse(jump);
  const time = timeToTakeOff(jump);
  if ('reason' in rise) return rise;
  if ('reason' in time) return time;
  return found(rise.value / time.value, 'm/s', {
    ...time.evidence,
    terms: [term('jump height', rise.value, 'm'), term('time to take-off', time.value, 's')],
  });
}

function flightToContraction(jump: JumpContext) {
  const air = airTime(jump);
  const time = timeToTakeOff(jump);
  if ('reason' in air) return air;
  if ('reason' in time) return time;
  return found(air.value / time.value, '1', {
    interval: { start: time.evidence.interval?.start ?? 0, end: jump.events.touchdown },
    terms: [term('flight time', air.value, 's'), term('time to take-off', time.value, 's')],
  });
}

const phaseTime = (
  id: JumpPhase['id'],
  title: string,
  formula: string,
  kinds: JumpMetricDefinition['kinds'],
): JumpMetricDefinition => ({
  ...plain,
  id: `${id}_time`,
  unit: 's',
  title,
  formula,
  source: mcmahon,
  better: 'neither',
  kinds,
  compute: (jump) =>
    overPhase(jump, id, ({ start, end }) => found(seconds(jump, start, end), 's', { interval: { start, end } })),
});

/** Times of a jump and of its phases, and height for the time taken. */
export const timeMetrics: readonly JumpMetricDefinition[] = [
  {
    ...plain,
    id: 'time_to_take_off',
    unit: 's',
    title: 'Time to take-off',
    formula: '(take-off - onset) / fs',
    source: mcmahon,
    better: 'neither',
    kinds: fromStanding,
    compute: timeToTakeOff,
  },
  {
    ...plain,
    id: 'flight_time',
    unit: 's',
    title: 'Flight time',
    formula: '(touchdown - take-off) / fs',
    source: mcmahon,
    better: 'higher',
    kinds: single,
    compute: airTime,
  },
  {
    ...plain,
    id: 'rsi_modified',
    unit: 'm/s',
    title: 'Reactive strength index, modified',
    formula: 'jump height (from impulse) / time to take-off',
    source: ebben,
    better: 'higher',
    kinds: ['countermovement'],
    compute: modifiedIndex,
  },
  {
    ...plain,
    id: 'flight_contraction_ratio',
    unit: '1',
    title: 'Flight time to contraction time',
    formula: 'flight time / time to take-off',
    source: 'Cormack et al. 2008, Int J Sports Physiol Perform 3:131-144 (from memory)',
    better: 'higher',
    kinds: ['countermovement'],
    compute: flightToContraction,
  },
  phaseTime('unweighting', 'Time of unweighting', 'from onset to the most negative velocity', ['countermovement']),
  phaseTime(
    'braking',
    'Time of braking',
    'from the most negative velocity (drop jump: from touchdown) to the first upward velocity',
    withBraking,
  ),
  phaseTime(
    'propulsion',
    'Time of propulsion',
    'from the first upward velocity (squat jump: from onset) to take-off',
    single,
  ),
  phaseTime('landing', 'Time of landing', 'from touchdown to the first sample that does not move downward', single),
];
