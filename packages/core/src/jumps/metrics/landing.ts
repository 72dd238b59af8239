import { indexOfLargest, touchesGap, trapezoid } from '../../signal/index.ts';
import type { JumpContext } from '../jump-context.ts';
import { single } from '../kinds.ts';
import { atLeastOne } from '../motion.ts';
import { found, none, overPhase, perKilogram, plain } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

/** How long after the touchdown the peak of a landing is looked for when the motion does not tell its end, s. */
const longest = 0.5;

/** First and last sample in which the peak of the landing may lie. */
export function landingSpan(jump: JumpContext): { readonly start: number; readonly end: number } {
  const { touchdown, endOfLanding, span } = jump.events;
  const end = endOfLanding ?? touchdown + atLeastOne(longest, jump.forces.sampleRate);
  return { start: touchdown, end: Math.min(end, span.end - 1) };
}

const peak: JumpMetricDefinition = {
  ...plain,
  id: 'landing_peak_force',
  unit: 'N',
  title: 'Peak force of landing',
  formula: 'largest F from touchdown to the end of the landing (where that is not known: over 0.5 s)',
  source:
    'McMahon et al. 2018, Strength Cond J 40(4):96-106, doi 10.1519/SSC.0000000000000375; the 0.5 s are a proposal',
  better: 'lower',
  kinds: single,
  compute: (jump) => {
    const { start, end } = landingSpan(jump);
    if (touchesGap(jump.forces, start, end)) return none('gap-in-interval');
    const at = indexOfLargest(jump.forces.total, start, end + 1);
    if (at < 0) return none('interval-past-end');
    const force = jump.forces.total[at] as number;
    return found(force, 'N', { interval: { start: at, end: at }, points: [{ at, force, of: 'total' }] });
  },
};

/** The landing. */
export const landingMetrics: readonly JumpMetricDefinition[] = [
  peak,
  perKilogram(peak, 'landing_peak_force_relative', 'Peak force of landing per kg', 'N/kg'),
  {
    ...plain,
    id: 'landing_impulse',
    unit: 'N.s',
    title: 'Impulse of landing',
    formula:
      'trapezoidal integral of F from touchdown to the first sample that does not move downward; weight included',
    source: 'McMahon et al. 2018, Strength Cond J 40(4):96-106, doi 10.1519/SSC.0000000000000375',
    better: 'neither',
    kinds: single,
    compute: (jump) =>
      overPhase(jump, 'landing', ({ start, end }) =>
        found(trapezoid(jump.forces.total, start, end) / jump.forces.sampleRate, 'N.s', { interval: { start, end } }),
      ),
  },
];
