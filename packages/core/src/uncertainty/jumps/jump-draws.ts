import { flightThreshold } from '../../jumps/flight.ts';
import type { JudgedJump } from '../../jumps/found-jumps.ts';
import type { JumpContext } from '../../jumps/jump-context.ts';
import type { JumpMetricDefinition } from '../../jumps/metrics/index.ts';
import { remade } from '../../jumps/remade.ts';
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

/**
 * Take-off and touchdown of every flight in other forces, each looked for from where it was: a draw that lifts the empty plates to the
 * threshold would otherwise find a take-off anywhere in the flight, where the analysis would take the zero off first.
 */
function eventsIn({ jump, method, own }: JudgedJump, { total, sampleRate }: Forces): JumpContext['events'] {
  const { events } = jump;
  // Whether the zero had drifted is settled: a draw that asks again would take off what it has just put on.
  const rule = { ...method.flight, rule: own.flight, rezero: Number.POSITIVE_INFINITY };
  const air = { start: events.takeOff, end: events.touchdown };
  const threshold = { ...flightThreshold(total, sampleRate, air, rule), zeroOffset: events.threshold.zeroOffset };
  const { value } = threshold;
  const up = (from: number) => firstNear(from, total.length, (i) => (total[i] as number) < value);
  const down = (from: number) => firstNear(from, total.length, (i) => (total[i] as number) > value);
  const { firstTouchdown } = events;
  return {
    ...events,
    threshold,
    takeOff: up(events.takeOff),
    touchdown: down(events.touchdown),
    ...(firstTouchdown === undefined ? {} : { firstTouchdown: down(firstTouchdown) }),
    contacts: events.contacts.map((one) => ({
      touchdown: down(one.touchdown),
      takeOff: up(one.takeOff),
      nextTouchdown: down(one.nextTouchdown),
    })),
  };
}

/** The first sample past a threshold, near one that was the first past another. */
function firstNear(from: number, count: number, isPast: (i: number) => boolean): number {
  let at = from;
  while (at > 0 && isPast(at - 1)) at--;
  while (at < count - 1 && !isPast(at)) at++;
  return at;
}
