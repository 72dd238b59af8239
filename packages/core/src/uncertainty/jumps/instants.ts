import { crossing } from '../../jumps/flight.ts';
import type { JumpContext } from '../../jumps/jump-context.ts';
import { remade } from '../../jumps/remade.ts';
import { meanOf, type Samples, samplesIn, sdOf, valueAt } from '../../signal/index.ts';

/**
 * An instant that bounds a value of a jump, at a whole sample:
 * - `onset`: it is held, its timing stands beside the number;
 * - `fastest`: largest downward velocity, where F passes W;
 * - `upward`: the lowest position, where v passes 0, and with it the first upward sample;
 * - `take-off`, `touchdown`: where F passes the threshold of the flight; of a drop jump and of hops every one of them;
 * - `landed`: where v passes 0 in the landing.
 */
export interface Instant {
  readonly id: 'onset' | 'fastest' | 'upward' | 'take-off' | 'touchdown' | 'landed';
  readonly at: number;
}

/** The instants that values of a jump hang on. */
export function instantsOf({ kind, events, onset }: JumpContext): readonly Instant[] {
  const { takeOff, touchdown, firstTouchdown, contacts, peakNegativeVelocity, propulsionStart, endOfLanding } = events;
  if (kind === 'repeated') {
    const downs = [...contacts.map((one) => one.touchdown), ...contacts.slice(-1).map((one) => one.nextTouchdown)];
    return [
      ...downs.map((at): Instant => ({ id: 'touchdown', at })),
      ...contacts.map((one): Instant => ({ id: 'take-off', at: one.takeOff })),
    ];
  }
  const found = (id: Instant['id'], at: number | undefined): Instant[] => (at === undefined ? [] : [{ id, at }]);
  return [
    ...(kind === 'drop'
      ? found('touchdown', firstTouchdown)
      : found('onset', onset.ok ? onset.value.index : undefined)),
    ...(kind === 'countermovement' ? found('fastest', peakNegativeVelocity?.index) : []),
    ...(kind === 'squat' ? [] : found('upward', propulsionStart)),
    { id: 'take-off', at: takeOff },
    { id: 'touchdown', at: touchdown },
    ...found('landed', endOfLanding),
  ];
}

/** The jump with one instant moved by whole samples, and all that begins or ends there; undefined where that lies outside the recording. */
export function movedInstant(jump: JumpContext, { id, at }: Instant, by: number): JumpContext | undefined {
  if (at + by < 0 || at + by > jump.forces.sampleCount - 1) return undefined;
  const { events, kind, onset } = jump;
  const move = (index: number): number => (index === at ? index + by : index);
  const marked = <T extends { readonly index: number }>(mark: T): T => ({ ...mark, index: mark.index + by });
  switch (id) {
    case 'onset':
      return remade(jump, { onset: at + by, marks: 'held' });
    case 'fastest': {
      const { peakNegativeVelocity: mark } = events;
      return remade(jump, {
        events: { ...events, ...(mark && { peakNegativeVelocity: marked(mark) }) },
        marks: 'held',
      });
    }
    case 'upward': {
      const { lowestPosition: mark } = events;
      const moved = { ...events, propulsionStart: at + by, ...(mark && { lowestPosition: marked(mark) }) };
      return remade(jump, { events: moved, marks: 'held' });
    }
    case 'landed':
      return remade(jump, { events: { ...events, endOfLanding: at + by }, marks: 'held' });
    default: {
      const { firstTouchdown } = events;
      const moved = {
        ...events,
        takeOff: move(events.takeOff),
        touchdown: move(events.touchdown),
        ...(firstTouchdown === undefined ? {} : { firstTouchdown: move(firstTouchdown) }),
        contacts: events.contacts.map((one) => ({
          touchdown: move(one.touchdown),
          takeOff: move(one.takeOff),
          nextTouchdown: move(one.nextTouchdown),
        })),
      };
      const start = kind === 'drop' && onset.ok ? { onset: move(onset.value.index) } : {};
      return remade(jump, { events: moved, ...start, marks: 'held' });
    }
  }
}

/** Half the distance over which the slope of a force is taken where it passes W, s. */
const aroundCrossing = 0.01;

/** How an instant hangs on what was measured. */
export interface Crossing {
  /** What passes nothing there: F - W, v, or F less the threshold. */
  readonly of: (jump: JumpContext) => number;
  /** Its slope, for each sample; 0 where the instant does not move. */
  readonly slope: number;
}

/** Two samples, the nearest there are to the asked ones. */
const within = ({ length }: Samples, from: number, to: number) =>
  [Math.max(0, from), Math.min(length - 1, to)] as const;

/** What decides where an instant lies. Moved by d, it passes nothing -d / slope samples later. */
export function crossingOf(jump: JumpContext, { id, at }: Instant): Crossing {
  const { total, sampleRate } = jump.forces;
  switch (id) {
    case 'onset':
      return { of: () => 0, slope: 0 };
    case 'fastest': {
      const half = Math.max(1, samplesIn(aroundCrossing, sampleRate));
      const [from, to] = within(total, at - half, at + half);
      return {
        of: ({ forces, bodyWeight }) =>
          (forces.total[at] as number) - (bodyWeight.ok ? bodyWeight.value.value : Number.NaN),
        slope: ((total[to] as number) - (total[from] as number)) / (to - from),
      };
    }
    case 'upward':
    case 'landed': {
      const velocity = ({ motion }: JumpContext, index: number) =>
        motion.ok ? (motion.value.velocity[index - motion.value.start] as number) : Number.NaN;
      return { of: (one) => velocity(one, at), slope: velocity(jump, at) - velocity(jump, at - 1) };
    }
    default: {
      const exact = crossing(total, at, jump.events.threshold.value);
      // Two samples on the loaded side: one of them alone may hold little more than noise.
      const [from, to] = id === 'take-off' ? within(total, at - 2, at) : within(total, at - 1, at + 1);
      return {
        of: (one) => valueAt(one.forces.total, exact) - thresholdIn(one),
        slope: ((total[to] as number) - (total[from] as number)) / (to - from),
      };
    }
  }
}

/** The threshold of the flight as the forces now give it; a fixed one stays. */
function thresholdIn({ forces, events: { threshold } }: JumpContext): number {
  const { rule, value, window, flightMean, flightSd, zeroOffset } = threshold;
  const measured = flightMean - zeroOffset + 5 * flightSd;
  // A fixed one, and the least of all, do not follow what the plates show in flight.
  if (rule !== 'five-sd-of-flight' || value > measured + 1e-9) return value;
  const { total } = forces;
  return meanOf(total, window.start, window.end) + 5 * sdOf(total, window.start, window.end);
}
