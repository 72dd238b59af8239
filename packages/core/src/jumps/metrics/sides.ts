import { asymmetry, bothSides } from '../../metrics/measuring.ts';
import type { Measured } from '../../metrics/metric.ts';
import { indexOfLargest, touchesGap, trapezoid } from '../../signal/index.ts';
import type { JumpPhase } from '../events.ts';
import type { JumpContext } from '../jump-context.ts';
import { single, withBraking } from '../kinds.ts';
import { landingSpan } from './landing.ts';
import { found, inclusiveMean, none, phase, plain, term } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const source =
  'Bishop et al. 2018, Strength Cond J 40(4):1-6 (bilateral index, share of the total); positive means right; events are those of the sum';

type Of = (force: Float64Array, start: number, end: number, rate: number) => number;

const impulse: Of = (force, start, end, rate) => trapezoid(force, start, end) / rate;
const average: Of = (force, start, end) => inclusiveMean(force, start, end);
const largest: Of = (force, start, end) => force[indexOfLargest(force, start, end + 1)] as number;

interface Family {
  readonly name: string;
  readonly title: string;
  readonly formula: string;
  readonly unit: string;
  readonly kinds: JumpMetricDefinition['kinds'];
  readonly of: Of;
  readonly over: JumpPhase['id'];
}

const families: readonly Family[] = [
  {
    name: 'braking_impulse',
    title: 'impulse of braking',
    formula: 'trapezoidal integral of the force of that side over the phase of braking',
    unit: 'N.s',
    kinds: withBraking,
    of: impulse,
    over: 'braking',
  },
  {
    name: 'propulsion_impulse',
    title: 'impulse of propulsion',
    formula: 'trapezoidal integral of the force of that side over the phase of propulsion',
    unit: 'N.s',
    kinds: single,
    of: impulse,
    over: 'propulsion',
  },
  {
    name: 'propulsion_mean_force',
    title: 'mean force of propulsion',
    formula: 'mean of the samples of that side over the phase of propulsion, both ends included',
    unit: 'N',
    kinds: single,
    of: average,
    over: 'propulsion',
  },
  {
    name: 'landing_peak_force',
    title: 'peak force of landing',
    formula: 'largest force of that side from touchdown to the end of the landing',
    unit: 'N',
    kinds: single,
    of: largest,
    over: 'landing',
  },
];

/** Samples a family looks at: a phase, or the landing, whose peak is known also where its end is not. */
function spanOf(jump: JumpContext, { over }: Family) {
  if (over === 'landing') {
    const span = landingSpan(jump);
    return touchesGap(jump.forces, span.start, span.end)
      ? ({ ok: false, reason: 'gap-in-interval' } as const)
      : ({ ok: true, value: span } as const);
  }
  return phase(jump, over);
}

function oneSide(jump: JumpContext, family: Family, side: 'left' | 'right'): Measured {
  const force = jump.forces[side];
  if (force === undefined) return none('one-side-only');
  const span = spanOf(jump, family);
  if (!span.ok) return none(span.reason);
  const { start, end } = span.value;
  return found(family.of(force, start, end, jump.forces.sampleRate), family.unit, { interval: { start, end } });
}

function bothCompared(jump: JumpContext, family: Family): Measured {
  const both = bothSides(jump.forces);
  if (!both.ok) return none(both.reason);
  const span = spanOf(jump, family);
  if (!span.ok) return none(span.reason);
  const { start, end } = span.value;
  const left = family.of(both.value.left, start, end, jump.forces.sampleRate);
  const right = family.of(both.value.right, start, end, jump.forces.sampleRate);
  return found(asymmetry(left, right), '%', {
    interval: { start, end },
    terms: [term('left', left, family.unit), term('right', right, family.unit)],
  });
}

/** Each leg by itself, and the difference between them. */
export const jumpSideMetrics: readonly JumpMetricDefinition[] = families.flatMap((family): JumpMetricDefinition[] => [
  ...(['left', 'right'] as const).map(
    (side): JumpMetricDefinition => ({
      ...plain,
      id: `${side}_${family.name}`,
      unit: family.unit,
      title: `${side === 'left' ? 'Left' : 'Right'} ${family.title}`,
      formula: family.formula,
      source,
      better: 'neither',
      kinds: family.kinds,
      compute: (jump) => oneSide(jump, family, side),
    }),
  ),
  {
    ...plain,
    id: `asymmetry_${family.name}`,
    unit: '%',
    title: `Asymmetry of the ${family.title}`,
    formula: `100 (R - L) / (R + L), L and R as ${family.formula.replace('that side', 'each side')}`,
    source,
    better: 'neither',
    kinds: family.kinds,
    compute: (jump) => bothCompared(jump, family),
  },
]);
