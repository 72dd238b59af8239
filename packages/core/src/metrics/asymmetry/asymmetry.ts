import { shared, type TrialContext } from '../../analysis/trial-context.ts';
import { meanOf, touchesGap, trapezoid } from '../../signal/index.ts';
import { asymmetry, bothSides, found, later, none, refusal, refusalOfPeak } from '../measuring.ts';
import type { Measured, MetricDefinition, MetricEvidence } from '../metric.ts';

const fixed = {
  version: 1,
  unit: '%',
  source: 'Bishop et al. 2018, Strength Cond J 40(4):1-6 (bilateral index, share of the total); positive means right',
  better: 'neither',
} as const;

const result = (
  trial: TrialContext,
  left: number,
  right: number,
  unit: string,
  where: Omit<MetricEvidence, 'terms'>,
): Measured =>
  found(trial, asymmetry(left, right), '%', {
    ...where,
    terms: [
      { name: 'left', value: left, unit },
      { name: 'right', value: right, unit },
    ],
  });

function atPeak(trial: TrialContext, net: boolean): Measured {
  const { forces, events } = trial;
  if (net && !events.baseline.ok) return none(events.baseline.reason);
  const both = bothSides(forces);
  if (!both.ok) return none(both.reason);
  const refused = refusalOfPeak(trial);
  if (refused) return none(refused);
  const { left, right } = both.value;
  const at = events.peak.index;
  const l = left[at] as number;
  const r = right[at] as number;
  const where = {
    interval: { start: at, end: at },
    points: [
      { at, force: l, of: 'left' },
      { at, force: r, of: 'right' },
    ],
  } as const;
  if (!net || !events.baseline.ok) return result(trial, l, r, forces.unit, where);
  const { start, end } = events.baseline.value;
  if (touchesGap(forces, start, end - 1)) return none('gap-in-interval');
  return result(trial, l - meanOf(left, start, end), r - meanOf(right, start, end), forces.unit, where);
}

function ofMeans(trial: TrialContext): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const both = bothSides(trial.forces);
  if (!both.ok) return none(both.reason);
  // Whole samples from the onset (a hand-placed one may lie between two) to the end, both included.
  const start = Math.ceil(trial.onset.value.index);
  const last = trial.events.end;
  const refused = refusal(trial, start, last);
  if (refused) return none(refused);
  const left = meanToEnd(trial, 'left', both.value.left, start);
  const right = meanToEnd(trial, 'right', both.value.right, start);
  return result(trial, left, right, trial.forces.unit, { interval: { start, end: last + 1 } });
}

/**
 * Mean of one side from a whole sample to e. Onsets lie before r, so the mean of what follows r is taken once for all of them,
 * and what lies before is added as differences from it.
 */
function meanToEnd(trial: TrialContext, side: string, force: Float64Array, start: number): number {
  const { halfRise, end } = trial.events;
  const split = halfRise + 1;
  if (start > split || split > end) return meanOf(force, start, end + 1);
  const late = shared(trial, `mean after r, ${side}`, () => meanOf(force, split, end + 1));
  let sum = 0;
  for (let i = start; i < split; i++) sum += (force[i] as number) - late;
  return late + sum / (end + 1 - start);
}

function ofImpulses(trial: TrialContext, milliseconds: number): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const both = bothSides(trial.forces);
  if (!both.ok) return none(both.reason);
  const start = trial.onset.value.index;
  const end = later(trial, start, milliseconds);
  const refused = refusal(trial, start, end);
  if (refused) return none(refused);
  const { sampleRate, unit } = trial.forces;
  const left = trapezoid(both.value.left, start, end) / sampleRate;
  const right = trapezoid(both.value.right, start, end) / sampleRate;
  return result(trial, left, right, `${unit}.s`, { interval: { start, end } });
}

/** Difference between the sides as a share of their sum, at the peak, over the effort and over the early rise. */
export const asymmetryMetrics: readonly MetricDefinition[] = [
  {
    ...fixed,
    id: 'asymmetry_at_peak',
    title: 'Asymmetry at peak',
    formula: '100 (R_p - L_p) / (R_p + L_p)',
    dependsOnOnset: false,
    rate: false,
    compute: (trial) => atPeak(trial, false),
  },
  {
    ...fixed,
    id: 'asymmetry_net_at_peak',
    title: 'Net asymmetry at peak',
    formula: '100 (R - L) / (R + L), with R and L at p minus their means over the baseline',
    dependsOnOnset: false,
    rate: false,
    compute: (trial) => atPeak(trial, true),
  },
  {
    ...fixed,
    id: 'asymmetry_mean_force',
    title: 'Asymmetry of mean force',
    formula: '100 (R - L) / (R + L), with the means of R and L over [o, e]',
    dependsOnOnset: true,
    rate: false,
    compute: ofMeans,
  },
  ...[100, 200, 250].map(
    (milliseconds): MetricDefinition => ({
      ...fixed,
      id: `asymmetry_impulse_0_${milliseconds}`,
      title: `Asymmetry of impulse 0 to ${milliseconds} ms`,
      formula: `100 (R - L) / (R + L), with the gross impulses of R and L from o to o + ${milliseconds} ms`,
      dependsOnOnset: true,
      rate: true,
      compute: (trial) => ofImpulses(trial, milliseconds),
    }),
  ),
];
