import type { TrialContext } from '../analysis/trial-context.ts';
import type { Measured, MetricDefinition } from '../metrics/metric.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import { halfDifference, rootSumOfSquares } from './combine.ts';
import { disturbed } from './disturbed.ts';
import { type ElementaryError, errorsOf } from './errors.ts';
import { loadsOf } from './loads.ts';
import { dependentSamples, noiseOf, noiseRules, type Value } from './noise/index.ts';
import { onsetTiming } from './onset-timing.ts';
import {
  coverage,
  onsetTimingWords,
  type PartId,
  partIds,
  partWords,
  type Uncertainty,
  type UncertaintyPart,
} from './parts.ts';
import type { UncertaintySources } from './sources.ts';
import { stretchOf } from './stretch.ts';

/** A change smaller than this share of the value is rounding, not an effect. */
const rounding = 1e-9;

/** Values whose instant of the highest sample matters and cannot be told by small changes. */
const dependOnPeakInstant: ReadonlySet<string> = new Set(['time_to_peak', 'rfd_average']);

/**
 * The uncertainty of metrics of one trial, part by part (GUM, k = 2).
 *
 * Every error is one small disturbance of the trial (a gain of all plates, a gain or offset of one, W, one plate late); each metric's own
 * `compute` is run with it added and taken off, and half the difference is what it gives the value. White noise of single samples is
 * analytic, by the map of noise rules. The onset stays; what its timing gives stands beside the combined value.
 *
 * Sources: JCGM 100:2008 (GUM) 5.1.2, 5.1.3 note 2, 6.3; definition in docs/reference/uncertainty.md.
 *
 * @returns by metric id; the value's own reason, or `sources-not-known` where no part of it is known
 */
export function uncertainties(
  trial: TrialContext,
  metrics: readonly MetricDefinition[],
  sources: UncertaintySources,
): Record<string, Outcome<Uncertainty>> {
  const stretch = stretchOf(trial);
  const loads = loadsOf(stretch);
  const { known, probes } = errorsOf(stretch, loads, sources);
  const values = metrics.map((metric) => metric.compute(stretch));
  const effects = metrics.map(() => new Map<PartId, number[]>());
  const missing = metrics.map(() => new Set<PartId>());
  const each = (error: ElementaryError, take: (at: number, effect: number) => void) => {
    const [above, below] = [disturbed(stretch, loads, error, 1), disturbed(stretch, loads, error, -1)];
    metrics.forEach((metric, at) => {
      const value = values[at] as Measured;
      if (!('value' in value)) return;
      const [more, less] = [metric.compute(above), metric.compute(below)];
      if (!('value' in more) || !('value' in less)) return;
      const effect = halfDifference(more.value, less.value);
      // Sides that are quite even have an asymmetry of next to nothing, and yet it is a share of a hundred.
      const size = value.unit === '%' ? 100 : Math.abs(value.value);
      take(at, Math.abs(effect) <= rounding * size ? 0 : effect);
    });
  };
  for (const error of known)
    each(error, (at, effect) => {
      const of = effects[at] as Map<PartId, number[]>;
      of.set(error.part, [...(of.get(error.part) ?? []), effect]);
    });
  for (const error of probes) {
    // Once every value is known to move there is nothing more to learn of a part.
    if (missing.every((parts) => parts.has(error.part))) continue;
    each(error, (at, effect) => {
      if (effect !== 0) missing[at]?.add(error.part);
    });
  }
  const timing = onsetTiming(trial);
  return Object.fromEntries(
    metrics.map((metric, at): [string, Outcome<Uncertainty>] => {
      const value = values[at] as Measured;
      if (!('value' in value)) return [metric.id, lack(value.reason)];
      const parts = partIds.flatMap((id): UncertaintyPart[] => {
        const found = effects[at]?.get(id);
        return found === undefined ? [] : [{ id, words: partWords[id], standard: rootSumOfSquares(found) }];
      });
      const unknown = missing[at] ?? new Set();
      addNoise(stretch, metric.id, value, sources, parts, unknown);
      return [metric.id, combined(metric, value.unit, parts, unknown, timing)];
    }),
  );
}

/** The uncertainty of one metric of a trial; see `uncertainties`. */
export function uncertaintyOf(
  trial: TrialContext,
  metric: MetricDefinition,
  sources: UncertaintySources,
): Outcome<Uncertainty> {
  return uncertainties(trial, [metric], sources)[metric.id] as Outcome<Uncertainty>;
}

function addNoise(
  trial: TrialContext,
  id: string,
  value: Value,
  { noise }: UncertaintySources,
  parts: UncertaintyPart[],
  unknown: Set<PartId>,
): void {
  if (dependOnPeakInstant.has(id)) unknown.add('peak-instant');
  if (id === 'time_to_peak') {
    // Onset and peak each lie on the grid: two rectangular parts of half a sample.
    const standard = 1 / (Math.sqrt(6) * trial.forces.sampleRate);
    parts.push({ id: 'sampling', words: partWords.sampling, standard });
  }
  const rule = noiseRules()[id];
  if (rule?.kind === 'none') return;
  const standard =
    rule === undefined || noise === undefined
      ? undefined
      : noiseOf(rule.of(trial, value), noise, dependentSamples(trial));
  if (rule === undefined || standard === undefined) unknown.add('noise');
  else parts.push({ id: 'noise', words: partWords.noise, standard, note: rule.words });
}

function combined(
  metric: MetricDefinition,
  unit: string,
  parts: readonly UncertaintyPart[],
  unknown: ReadonlySet<PartId>,
  timing: ReturnType<typeof onsetTiming>,
): Outcome<Uncertainty> {
  const standard = rootSumOfSquares(parts.map((part) => part.standard));
  if (standard === 0) return lack('sources-not-known');
  const late = metric.dependsOnOnset ? timing(metric) : undefined;
  return have({
    ...{ standard, expanded: coverage * standard, coverage, unit },
    parts: [...parts].sort((a, b) => partIds.indexOf(a.id) - partIds.indexOf(b.id)),
    unknown: partIds.filter((id) => unknown.has(id)).map((id) => ({ id, words: partWords[id] })),
    ...(late?.ok ? { onsetTiming: { words: onsetTimingWords, standard: late.value } } : {}),
  });
}
