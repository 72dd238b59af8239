import { flightEvents, flightThreshold } from '../../jumps/flight.ts';
import type { JudgedJump } from '../../jumps/found-jumps.ts';
import type { JumpContext } from '../../jumps/jump-context.ts';
import type { JumpMetricDefinition } from '../../jumps/metrics/index.ts';
import { remade } from '../../jumps/remade.ts';
import { pushTime } from '../../jumps/split.ts';
import type { Forces } from '../../recording/forces.ts';
import { meanOf } from '../../signal/index.ts';
import type { SeededRandom } from '../../simulation/random.ts';
import { drawingForces } from '../draw-forces.ts';
import { type Drawn, drawnWeight, spreadOver } from '../monte-carlo.ts';
import type { UncertaintySources } from '../sources.ts';
import { loadingsOf, loadsOfJump, zeroedOver } from './disturbed-jump.ts';

/**
 * Propagation of distributions through a jump (JCGM 101:2008): every source is drawn from a normal distribution, the forces are made anew
 * sample by sample, the threshold of the flight, take-off, touchdown, motion, lowest position, peaks and W are found in them again, and
 * the whole metric is computed; the onset of a jump from standing and the quiet second stay.
 *
 * It shares the models of the errors with `jumpUncertainties` and none of its differences, so that each checks the other. What instants
 * on whole samples leave open is not drawn: every draw has the grid of the recording.
 *
 * @param random a seeded generator; the same seed gives the same draws
 */
export function drawJumpMetrics(
  judged: JudgedJump,
  metrics: readonly JumpMetricDefinition[],
  sources: UncertaintySources,
  draws: number,
  random: SeededRandom,
): Record<string, Drawn> {
  const { jump } = judged;
  const loads = loadsOfJump(jump);
  const loadings = loadingsOf(jump);
  const drawForces = drawingForces(jump.forces, loads, sources, random, loadings);
  const { weighing } = jump.events;
  const inWindow = weighing.ok
    ? loadings.findIndex(({ start, end }) => weighing.value.start >= start && weighing.value.end <= end)
    : -1;
  return spreadOver(metrics, draws, () => {
    const { forces, standing, offsets } = drawForces();
    const error = drawnWeight(jump.bodyWeight, loads, sources, random, standing, offsets[inWindow] ?? 0);
    const zero = zeroAgain(jump, forces);
    const events = eventsIn(judged, forces);
    const read = jump.bodyWeight.ok && jump.bodyWeight.value.from === 'baseline' ? error - zero : error;
    return remade(jump, {
      forces,
      events,
      ...(jump.kind === 'drop' && events.firstTouchdown !== undefined ? { onset: events.firstTouchdown } : {}),
      ...(jump.bodyWeight.ok ? { weight: jump.bodyWeight.value.value + read } : {}),
      marks: 'found',
    });
  });
}

/** A zero that was taken off in flight is taken off again; how much that is on all plates together, N. */
function zeroAgain(jump: JumpContext, { total, left, right }: Forces): number {
  const window = zeroedOver(jump);
  if (window === undefined) return 0;
  const [all = 0] = [total, left, right].map((force) => {
    if (force === undefined) return 0;
    const zero = meanOf(force, window.start, window.end);
    for (let i = 0; i < force.length; i++) force[i] = (force[i] as number) - zero;
    return zero;
  });
  return all;
}

/** Take-off and touchdown of every flight in other forces. */
function eventsIn({ jump, method, own }: JudgedJump, forces: Forces): JumpContext['events'] {
  const { events, kind } = jump;
  // Whether the zero had drifted is settled: a draw that asks again would take off what it has just put on.
  const rule = { ...method.flight, rule: own.flight, rezero: Number.POSITIVE_INFINITY };
  const { total, sampleRate } = forces;
  const air = { start: events.takeOff, end: events.touchdown };
  const threshold = { ...flightThreshold(total, sampleRate, air, rule), zeroOffset: events.threshold.zeroOffset };
  const flightIn = (takeOff: number, touchdown: number, from: number, until: number) =>
    flightEvents(forces, { start: takeOff, end: touchdown }, threshold.value, rule.leastTime, from, until);
  const main = flightIn(
    events.takeOff,
    events.touchdown,
    events.firstTouchdown ?? Math.max(events.span.start, events.takeOff - Math.round(pushTime * sampleRate)),
    events.span.end,
  );
  const takeOff = main?.takeOff ?? events.takeOff;
  const touchdown = main?.touchdown ?? events.touchdown;
  const moved = { ...events, threshold, takeOff, touchdown };
  if (kind === 'drop') {
    const firstTouchdown = passedNear(total, events.firstTouchdown ?? takeOff, threshold.value);
    return {
      ...moved,
      firstTouchdown,
      contacts: [{ touchdown: firstTouchdown, takeOff, nextTouchdown: touchdown }],
    };
  }
  if (kind !== 'repeated') return moved;
  let last = passedNear(total, events.contacts[0]?.touchdown ?? 0, threshold.value);
  const contacts = events.contacts.map((one, i) => {
    const until = events.contacts[i + 1]?.takeOff ?? events.span.end;
    const flight = flightIn(one.takeOff, one.nextTouchdown, last, until);
    const found = {
      touchdown: last,
      takeOff: flight?.takeOff ?? one.takeOff,
      nextTouchdown: flight?.touchdown ?? one.nextTouchdown,
    };
    last = found.nextTouchdown;
    return found;
  });
  return { ...moved, contacts };
}

/** The first sample above a threshold near one that was the first above another. */
function passedNear(force: Float64Array, from: number, threshold: number): number {
  let at = from;
  while (at > 0 && (force[at - 1] as number) > threshold) at--;
  while (at < force.length - 1 && !((force[at] as number) > threshold)) at++;
  return at;
}
