import type { Onset } from '../analysis/events.ts';
import type { AnalysisRequest } from '../analysis/request.ts';
import type { BodyWeight } from '../analysis/trial-context.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import type { JumpTest } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { meanOf, touchesGap } from '../signal/index.ts';
import { placedOnset } from './by-hand.ts';
import { fallVelocity } from './drop.ts';
import type { Contact, FlightThreshold, JumpEvents, WeighingWindow } from './events.ts';
import { type Flight, flightEvents, flightThreshold } from './flight.ts';
import type { JumpContext } from './jump-context.ts';
import { fromStanding } from './kinds.ts';
import { longestBy } from './longest.ts';
import type { DropRule, JumpMethod } from './method/jump-method.ts';
import { integrate, type Motion, untilGap } from './motion.ts';
import { jumpOnsetRules } from './onset.ts';
import { endOfLanding, type GroundMarks, groundMarks, phasesOf } from './phases.ts';
import { type FoundJump, pushTime } from './split.ts';
import { weighAfter, weighBefore } from './weighing.ts';

/** Which onset and which flight rule: the method's own, or another one for the spread. */
export interface RuleChoice {
  readonly onset: string;
  readonly flight: string;
}

/**
 * Builds what metrics and checks of one jump look at.
 *
 * @param read forces after the method's filter
 * @returns undefined when the flight has no take-off or touchdown under the rule
 */
export function jumpContext(
  request: AnalysisRequest,
  method: JumpMethod,
  read: Forces,
  found: FoundJump,
  choice: RuleChoice,
  hand?: AnalysisRequest['onsetByHand'],
): JumpContext | undefined {
  const { kind } = request.protocol.jump as JumpTest;
  const rule = { ...method.flight, rule: choice.flight };
  // One zero for the whole piece: that of the longest flight.
  const longest = longestBy(found.flights, ({ start, end }) => end - start) as SampleSpan;
  const threshold = flightThreshold(read.total, read.sampleRate, longest, rule);
  const forces = threshold.zeroOffset === 0 ? read : rezeroed(read, threshold.window);
  const flights = flightsOf(forces, found, threshold, method);
  // The first flight of a series only starts it.
  const best = highestOf(kind === 'repeated' ? flights.slice(1) : flights);
  if (best === undefined) return undefined;
  const contacts = contactsOf(forces, found, flights, threshold, kind);
  if (kind === 'drop' && contacts.length === 0) return undefined;
  const firstTakeOff = flights[0]?.takeOff ?? best.takeOff;
  const lastTouchdown = flights.at(-1)?.touchdown ?? best.touchdown;
  const start = contacts[0]?.touchdown;
  const onBox = kind === 'drop' && method.drop !== undefined;
  // Nobody stands on the plates before a drop, unless the box is on one.
  const before =
    kind === 'drop' && !onBox
      ? lack('no-quiet-window')
      : weighBefore(forces, found.span, onBox ? (start ?? firstTakeOff) : firstTakeOff, request.cue, method.weighing);
  const stance = weighAfter(forces, lastTouchdown, found.span.end, method.weighing);
  const weighing = kind === 'drop' && !onBox ? stance : before.ok || kind !== 'repeated' ? before : stance;
  const bodyWeight = weightOf(request, forces, weighing);
  const automatic = onsetOf(choice.onset, forces, kind, weighing, threshold, best.takeOff, contacts);
  const onset = hand ? placedOnset(hand, automatic, found.span, best.takeOff) : automatic;
  const air = { takeOff: best.takeOff, touchdown: best.touchdown };
  const dropRule = kind === 'drop' ? method.drop : undefined;
  const stands = { weighing, stance };
  const motion = motionOf(
    request,
    forces,
    found,
    kind,
    onset,
    bodyWeight,
    stands,
    air,
    start,
    dropRule,
    threshold.value,
  );
  const from = kind === 'drop' ? start : onset.ok ? Math.ceil(onset.value.index) : undefined;
  const marks: GroundMarks =
    motion.ok && from !== undefined ? groundMarks(forces, motion.value, from, best.takeOff, kind) : {};
  const landed = motion.ok ? endOfLanding(motion.value, best.touchdown) : undefined;
  const events: JumpEvents = {
    kind,
    span: found.span,
    weighing,
    threshold,
    ...marks,
    takeOff: best.takeOff,
    touchdown: best.touchdown,
    takeOffExact: best.takeOffExact,
    touchdownExact: best.touchdownExact,
    ...(landed === undefined ? {} : { endOfLanding: landed }),
    ...(kind === 'drop' && start !== undefined ? { firstTouchdown: start } : {}),
    contacts,
    phases: phasesOf(kind, weighing.ok ? weighing.value : undefined, from, marks, best.takeOff, best.touchdown, landed),
  };
  return {
    forces,
    unfiltered: request.forces,
    protocol: request.protocol,
    kind,
    ...(dropRule === undefined ? {} : { drop: dropRule }),
    gravity: request.gravity,
    events,
    onset,
    bodyWeight,
    motion,
    stance,
    setup: request.jumpSetup ?? {},
    ...(request.bodyWeight === undefined ? {} : { known: request.bodyWeight }),
    ...(request.cue === undefined ? {} : { cue: request.cue }),
  };
}

function flightsOf(forces: Forces, found: FoundJump, threshold: FlightThreshold, method: JumpMethod): Flight[] {
  return found.flights.flatMap((flight, i) => {
    const from =
      i > 0 ? (found.flights[i - 1]?.end ?? 0) : (found.contactStart ?? pushStart(forces, found, flight.start));
    const until = found.flights[i + 1]?.start ?? found.span.end;
    return flightEvents(forces, flight, threshold.value, method.flight.leastTime, from, until) ?? [];
  });
}

const pushStart = (forces: Forces, found: FoundJump, flightStart: number): number =>
  Math.max(found.span.start, Math.floor(flightStart - pushTime * forces.sampleRate));

const highestOf = (flights: readonly Flight[]): Flight | undefined =>
  longestBy(flights, ({ takeOff, touchdown }) => touchdown - takeOff);

function contactsOf(
  forces: Forces,
  found: FoundJump,
  flights: readonly Flight[],
  threshold: FlightThreshold,
  kind: JumpTest['kind'],
): Contact[] {
  if (kind === 'repeated')
    return flights.slice(1).map((flight, i) => ({
      touchdown: (flights[i] as Flight).touchdown,
      takeOff: flight.takeOff,
      nextTouchdown: flight.touchdown,
    }));
  const [flight] = flights;
  if (kind !== 'drop' || flight === undefined || found.contactStart === undefined) return [];
  // The first pass found the contact by its own threshold: walk back to where this one is passed.
  let touchdown = found.contactStart;
  while (touchdown > found.span.start && (forces.total[touchdown - 1] as number) > threshold.value) touchdown--;
  while (touchdown < flight.takeOff && !((forces.total[touchdown] as number) > threshold.value)) touchdown++;
  return [{ touchdown, takeOff: flight.takeOff, nextTouchdown: flight.touchdown }];
}

/** W: the window's mean; without a window a weighing or a given weight. */
function weightOf(request: AnalysisRequest, forces: Forces, weighing: Outcome<WeighingWindow>): Outcome<BodyWeight> {
  const { unit } = forces;
  if (weighing.ok) return have({ value: weighing.value.mean, unit, from: 'baseline' });
  return request.bodyWeight ? have({ ...request.bodyWeight, unit }) : weighing;
}

/** The method's onset from standing; a contact begins at its touchdown. */
function onsetOf(
  id: string,
  forces: Forces,
  kind: JumpTest['kind'],
  weighing: Outcome<WeighingWindow>,
  threshold: FlightThreshold,
  takeOff: number,
  contacts: readonly Contact[],
): Outcome<Onset> {
  if (fromStanding.includes(kind)) {
    if (!weighing.ok) return weighing;
    const rule = jumpOnsetRules.get(id);
    if (rule === undefined) return lack('not-defined');
    return rule.find({ forces, kind, weighing: weighing.value, flightSd: threshold.flightSd, takeOff });
  }
  const [first] = contacts;
  if (first === undefined) return lack('onset-not-found');
  const { window, flightMean, flightSd, zeroOffset } = threshold;
  return have({
    index: first.touchdown,
    rule: 'jump-contact',
    threshold: threshold.value,
    thresholdUnit: forces.unit,
    baseline: { ...window, mean: flightMean - zeroOffset, sd: flightSd },
    search: { start: Math.max(0, first.touchdown - 1), end: first.touchdown + 1 },
  });
}

function motionOf(
  request: AnalysisRequest,
  forces: Forces,
  found: FoundJump,
  kind: JumpTest['kind'],
  onset: Outcome<Onset>,
  weight: Outcome<BodyWeight>,
  stands: { readonly weighing: Outcome<WeighingWindow>; readonly stance: Outcome<WeighingWindow> },
  air: { readonly takeOff: number; readonly touchdown: number },
  contact: number | undefined,
  drop: DropRule | undefined,
  threshold: number,
): Outcome<Motion> {
  // A series has no one stretch over which a motion could be carried without drifting away.
  if (kind === 'repeated') return lack('not-defined');
  if (!weight.ok) return weight;
  if (!onset.ok) return onset;
  if (!(weight.value.value > 0)) return lack('not-defined');
  const start = kind === 'drop' ? (contact ?? air.takeOff) : Math.ceil(onset.value.index);
  if (touchesGap(forces, start, air.touchdown)) return lack('gap-in-interval');
  const { gravity } = request;
  const end = untilGap(forces, air.touchdown, found.span.end);
  if (kind !== 'drop') return have(integrate(forces, start, end, weight.value.value, gravity, air));
  const velocity = fallVelocity(drop, forces, start, air, stands, weight.value.value, gravity, threshold);
  return velocity.ok ? have(integrate(forces, start, end, weight.value.value, gravity, air, velocity.value)) : velocity;
}

/** Forces less what each plate read in the middle of a flight. */
function rezeroed(forces: Forces, { start, end }: SampleSpan): Forces {
  const done = new Map<Float64Array, Float64Array>();
  const moved = (force: Float64Array): Float64Array => {
    const known = done.get(force);
    if (known) return known;
    const offset = meanOf(force, start, end);
    const made = force.map((value) => value - offset);
    done.set(force, made);
    return made;
  };
  return {
    ...forces,
    total: moved(forces.total),
    ...(forces.left ? { left: moved(forces.left) } : {}),
    ...(forces.right ? { right: moved(forces.right) } : {}),
    plates: forces.plates.map((plate) => ({ ...plate, force: moved(plate.force) })),
  };
}
