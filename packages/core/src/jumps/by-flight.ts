import type { AnalysisRequest } from '../analysis/request.ts';
import type { BodyWeight } from '../analysis/trial-context.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import type { JumpKind, JumpTest } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import type { Contact, FlightThreshold, WeighingWindow } from './events.ts';
import { type Flight, flightEvents, flightRest, thresholdBy } from './flight.ts';
import { longestBy } from './longest.ts';
import type { JumpMethod } from './method/jump-method.ts';
import { once } from './once.ts';
import { quietSearch } from './quiet.ts';
import { rezeroed } from './rezeroed.ts';
import { type FoundJump, pushTime } from './split.ts';
import { weighAfter, weighBefore } from './weighing.ts';

/** What a rule of take-off settles about a jump, whatever the rule of onset. */
export interface ByFlight {
  /** After a drifted zero was taken off; the same for every rule. */
  readonly forces: Forces;
  readonly threshold: FlightThreshold;
  /** The jump itself; of a series the highest hop. */
  readonly best: Flight;
  readonly contacts: readonly Contact[];
  readonly weighing: Outcome<WeighingWindow>;
  /** Looked for when it is asked for: values of a jump from standing do not need it. */
  readonly stance: () => Outcome<WeighingWindow>;
  readonly bodyWeight: Outcome<BodyWeight>;
}

/**
 * A function that gives, for a rule of take-off, what it settles; undefined where the flight has no take-off or touchdown under it.
 *
 * What no rule changes (the rest in flight, the zero, quiet seconds between the same samples) is computed once for all of them.
 *
 * @param read forces after the method's filter
 */
export function judgedByFlight(
  request: AnalysisRequest,
  method: JumpMethod,
  read: Forces,
  found: FoundJump,
): (rule: string) => ByFlight | undefined {
  const { kind } = request.protocol.jump as JumpTest;
  // One zero for the whole piece: that of the longest flight.
  const longest = longestBy(found.flights, ({ start, end }) => end - start) as SampleSpan;
  const rest = flightRest(read.total, read.sampleRate, longest, method.flight);
  const forces = rest.zeroOffset === 0 ? read : rezeroed(read, rest.window);
  const onBox = kind === 'drop' && method.drop !== undefined;
  // No rule puts the first take-off later than the end of the first flight.
  const search = quietSearch(forces, found.flights[0]?.end ?? found.span.end);
  const before = once((end: number) => weighBefore(forces, found.span, end, request.cue, method.weighing, search));
  const after = once((touchdown: number) => weighAfter(forces, touchdown, found.span.end, method.weighing));
  return once((rule) => {
    const threshold = thresholdBy(rest, { ...method.flight, rule });
    const flights = flightsOf(forces, found, threshold, method);
    // The first flight of a series only starts it.
    const best = highestOf(kind === 'repeated' ? flights.slice(1) : flights);
    if (best === undefined) return undefined;
    const contacts = contactsOf(forces, found, flights, threshold, kind);
    if (kind === 'drop' && contacts.length === 0) return undefined;
    const firstTakeOff = flights[0]?.takeOff ?? best.takeOff;
    const start = contacts[0]?.touchdown;
    // Nobody stands on the plates before a drop, unless the box is on one.
    const early =
      kind === 'drop' && !onBox ? lack('no-quiet-window') : before((onBox ? start : undefined) ?? firstTakeOff);
    const stance = () => after(flights.at(-1)?.touchdown ?? best.touchdown);
    const weighing = kind === 'drop' && !onBox ? stance() : early.ok || kind !== 'repeated' ? early : stance();
    return { forces, threshold, best, contacts, weighing, stance, bodyWeight: weightOf(request, forces, weighing) };
  });
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
  kind: JumpKind,
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
