import { asymmetry, bothSides } from '../../metrics/measuring.ts';
import type { Measured } from '../../metrics/metric.ts';
import { have, lack, type Outcome } from '../../outcome.ts';
import type { SampleSpan } from '../../recording/sample.ts';
import { indexOfLargest, touchesGap, trapezoid } from '../../signal/index.ts';
import type { JumpPhase } from '../events.ts';
import type { JumpContext } from '../jump-context.ts';
import { single, withBraking } from '../kinds.ts';
import { landingSpan } from './landing.ts';
import { found, inclusiveMean, none, phase, plain, term } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';
import { oncePerJump } from './once-per-jump.ts';

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

/** What a family measures of one side, and where. */
type OfSide = (jump: JumpContext) => Outcome<{ readonly value: number; readonly interval: SampleSpan }>;

const sideOf = (family: Family, side: 'left' | 'right'): OfSide =>
  oncePerJump((jump) => {
    const force = jump.forces[side];
    if (force === undefined) return lack('one-side-only');
    const span = spanOf(jump, family);
    if (!span.ok) return span;
    const { start, end } = span.value;
    return have({ value: family.of(force, start, end, jump.forces.sampleRate), interval: { start, end } });
  });

function oneSide(jump: JumpContext, { unit }: Family, of: OfSide): Measured {
  const one = of(jump);
  return one.ok ? found(one.value.value, unit, { interval: one.value.interval }) : none(one.reason);
}

function bothCompared(jump: JumpContext, { unit }: Family, ofLeft: OfSide, ofRight: OfSide): Measured {
  const both = bothSides(jump.forces);
  if (!both.ok) return none(both.reason);
  const [left, right] = [ofLeft(jump), ofRight(jump)];
  if (!left.ok) return none(left.reason);
  if (!right.ok) return none(right.reason);
  const { value: l, interval } = left.value;
  const { value: r } = right.value;
  return found(asymmetry(l, r), '%', { interval, terms: [term('left', l, unit), term('right', r, unit)] });
}

/** Each leg by itself, and the difference between them. */
export const jumpSideMetrics: readonly JumpMetricDefinition[] = families.flatMap((family): JumpMetricDefinition[] => {
  const of = { left: sideOf(family, 'left'), right: sideOf(family, 'right') };
  return [
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
        compute: (jump) => oneSide(jump, family, of[side]),
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
      compute: (jump) => bothCompared(jump, family, of.left, of.right),
    },
  ];
});
