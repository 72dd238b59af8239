import type { CheckResult } from '../../checks/check.ts';
import { judgeAbove, levelsOf, notJudged } from '../../checks/judging.ts';
import type { JumpContext } from '../jump-context.ts';
import { everyKind, single } from '../kinds.ts';
import { flightSpan, flightTime, heightFromFlight, heightFromVelocity, takeOffVelocity } from '../metrics/measuring.ts';
import { restingVelocity } from '../motion.ts';
import { type JumpCheckDefinition, proposal } from './check.ts';

function outside(value: number, low: number | undefined, high: number | undefined, jump: JumpContext): CheckResult {
  const judged = flightSpan(jump);
  if (low !== undefined && value < low) return { status: 'fail', value, limit: low, unit: 's', judged };
  if (high !== undefined && value > high) return { status: 'fail', value, limit: high, unit: 's', judged };
  const limit = high ?? low;
  return { status: 'pass', value, unit: 's', judged, ...(limit === undefined ? {} : { limit }) };
}

/** Does the flight say the same as the push, and is the air empty? */
export const flightChecks: readonly JumpCheckDefinition[] = [
  {
    id: 'zero_in_flight',
    version: 1,
    title: 'Zero held in flight',
    finding: 'The plates did not read zero in flight',
    why: 'Nobody stands on the plates in flight: whatever they read then is added to every force of the jump. It is taken off when it is more than 5 N.',
    definition: 'Mean of F over the middle of the flight, either way. Warn beyond 5 N, fail beyond 15 N.',
    source: proposal,
    unit: 'N',
    scope: 'trial',
    defaultLimits: { warn: 5, fail: 15 },
    kinds: everyKind,
    judge: (jump, limits) => {
      const { flightMean, window } = jump.events.threshold;
      return judgeAbove(flightMean, levelsOf(limits) ?? {}, 'N', window, undefined, Math.abs(flightMean));
    },
  },
  {
    id: 'flight_length',
    version: 1,
    title: 'A flight as long as flights are',
    finding: 'A flight too short or too long for a jump',
    why: 'Nobody stays in the air for a second; under 0.15 s it is a hop, a stumble or a step.',
    definition: 'Time in the air. Fail under `shortest` (0.15 s) and over `longest` (1.0 s).',
    source: proposal,
    unit: 's',
    scope: 'trial',
    defaultLimits: { shortest: 0.15, longest: 1 },
    kinds: single,
    judge: (jump, limits) => outside(flightTime(jump), limits.shortest, limits.longest, jump),
  },
  {
    id: 'height_agreement',
    version: 1,
    title: 'Both heights agree',
    finding: 'Height from flight and from impulse disagree',
    why: 'The two ways to a height share nothing but the jump. When they disagree the weight is wrong, the legs were drawn up for the landing, or an event lies in the wrong place.',
    definition:
      'Height from flight time less height from impulse, either way. Warn beyond 0.03 m and beyond 10 % of the height from impulse (`warnShareOfHeight`), whichever is less.',
    source: proposal,
    unit: 'm',
    scope: 'trial',
    defaultLimits: { warn: 0.03, warnShareOfHeight: 0.1 },
    kinds: single,
    judge: (jump, limits) => {
      const velocity = takeOffVelocity(jump);
      const judged = flightSpan(jump);
      if (!velocity.ok) return notJudged('m', 'no-onset', judged);
      const fromImpulse = heightFromVelocity(velocity.value, jump.gravity);
      const value = heightFromFlight(flightTime(jump), jump.gravity) - fromImpulse;
      const share = limits.warnShareOfHeight;
      const levels = [limits.warn, share === undefined ? undefined : share * fromImpulse].filter(
        (one): one is number => one !== undefined,
      );
      const size = Math.abs(value);
      return judgeAbove(value, levels.length === 0 ? {} : { warn: Math.min(...levels) }, 'm', judged, undefined, size);
    },
  },
  {
    id: 'rest_after_landing',
    version: 1,
    title: 'At rest after the landing',
    finding: 'Not at rest after the landing',
    why: 'Whoever stands still has no velocity. A velocity that stays when it is summed up to the quiet stand after the landing says that weight or zero is wrong.',
    definition:
      'Mean velocity over the quiet second after the landing, integrated from onset, either way. Warn beyond 0.05 m/s. Not judged without such a second.',
    source: proposal,
    unit: 'm/s',
    scope: 'trial',
    defaultLimits: { warn: 0.05 },
    kinds: ['countermovement', 'squat'],
    judge: (jump, limits) => {
      if (!jump.stance.ok) return notJudged('m/s', 'too-short');
      const { start, end } = jump.stance.value;
      const judged = { start, end };
      if (!jump.motion.ok) return notJudged('m/s', 'no-onset', judged);
      const value = restingVelocity(jump.motion.value, start, end);
      if (value === undefined) return notJudged('m/s', 'too-short', judged);
      return judgeAbove(value, levelsOf(limits) ?? {}, 'm/s', judged, undefined, Math.abs(value));
    },
  },
];
