import type { Onset } from '../analysis/events.ts';
import type { AnalysisRequest } from '../analysis/request.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import type { JumpTest } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import { touchesGap } from '../signal/index.ts';
import { type ByFlight, judgedByFlight } from './by-flight.ts';
import { placedOnset } from './by-hand.ts';
import { motionFrom } from './carried.ts';
import type { JumpEvents } from './events.ts';
import type { JumpContext } from './jump-context.ts';
import { fromStanding } from './kinds.ts';
import type { DropRule, JumpMethod } from './method/jump-method.ts';
import { type Motion, untilGap } from './motion.ts';
import { jumpOnsetRules } from './onset.ts';
import { endOfLanding, type GroundMarks, groundMarks, phasesOf } from './phases.ts';
import type { FoundJump } from './split.ts';

/** Which onset and which flight rule: the method's own, or another one for the spread. */
export interface RuleChoice {
  readonly onset: string;
  readonly flight: string;
}

/** How a jump is to be seen. */
export interface Sight extends RuleChoice {
  readonly hand?: AnalysisRequest['onsetByHand'];
  /** How far the motion is carried: to the end of the landing, where values end, or over the span, for checks. */
  readonly reach: 'landing' | 'span';
}

/**
 * Builds what metrics and checks of one jump look at, by any rules; what the rules do not change is computed once for all.
 *
 * @param read forces after the method's filter
 * @returns a function that gives undefined when the flight has no take-off or touchdown under the rule
 */
export function jumpBuilder(
  request: AnalysisRequest,
  method: JumpMethod,
  read: Forces,
  found: FoundJump,
): (sight: Sight) => JumpContext | undefined {
  const byFlight = judgedByFlight(request, method, read, found);
  return (sight) => {
    const judged = byFlight(sight.flight);
    return judged && jumpContext(request, method, found, judged, sight);
  };
}

function jumpContext(
  request: AnalysisRequest,
  method: JumpMethod,
  found: FoundJump,
  judged: ByFlight,
  { onset: rule, hand, reach }: Sight,
): JumpContext {
  const { kind } = request.protocol.jump as JumpTest;
  const { forces, threshold, best, contacts, weighing, stance, bodyWeight } = judged;
  const start = contacts[0]?.touchdown;
  const automatic = onsetOf(rule, kind, judged);
  const onset = hand ? placedOnset(hand, automatic, found.span, best.takeOff) : automatic;
  const dropRule = kind === 'drop' ? method.drop : undefined;
  const motion = motionOf(request, found, kind, judged, onset, dropRule, reach);
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
    get stance() {
      return stance();
    },
    setup: request.jumpSetup ?? {},
    ...(request.bodyWeight === undefined ? {} : { known: request.bodyWeight }),
    ...(request.cue === undefined ? {} : { cue: request.cue }),
  };
}

/** The method's onset from standing; a contact begins at its touchdown. */
function onsetOf(
  id: string,
  kind: JumpTest['kind'],
  { forces, weighing, threshold, best: { takeOff }, contacts }: ByFlight,
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
  { gravity }: AnalysisRequest,
  found: FoundJump,
  kind: JumpTest['kind'],
  { forces, threshold, best, contacts, weighing, stance, bodyWeight }: ByFlight,
  onset: Outcome<Onset>,
  drop: DropRule | undefined,
  reach: Sight['reach'],
): Outcome<Motion> {
  // A series has no one stretch over which a motion could be carried without drifting away.
  if (kind === 'repeated') return lack('not-defined');
  if (!bodyWeight.ok) return bodyWeight;
  if (!onset.ok) return onset;
  const weight = bodyWeight.value.value;
  if (!(weight > 0)) return lack('not-defined');
  const air = { takeOff: best.takeOff, touchdown: best.touchdown };
  const start = kind === 'drop' ? (contacts[0]?.touchdown ?? air.takeOff) : Math.ceil(onset.value.index);
  if (touchesGap(forces, start, air.touchdown)) return lack('gap-in-interval');
  const end = untilGap(forces, air.touchdown, found.span.end);
  const from = { kind, drop, forces, start, air, weighing, stance, weight, gravity, threshold: threshold.value };
  return motionFrom(from, reach === 'span' ? { end } : { landingBefore: end });
}
