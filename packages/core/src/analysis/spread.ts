import type { Measured } from '../metrics/metric.ts';
import { withOnset } from './context.ts';
import type { Plan } from './plan.ts';
import type { Spread } from './result.ts';
import type { TrialContext } from './trial-context.ts';

/**
 * Method spread: every onset-dependent metric under every automatic onset rule, on this very curve.
 *
 * Rules that agree on the sample share one computation. A rule without onset, and a value with a reason, leave no entry; a
 * metric without any value has no spread.
 *
 * @param metrics the trial's own values, used again where a rule gives its onset
 */
export function methodSpread(
  context: TrialContext,
  plan: Plan,
  metrics: Readonly<Record<string, Measured>>,
): Record<string, Spread> {
  const byIndex = new Map<number, readonly (number | undefined)[]>();
  if (context.onset.ok)
    byIndex.set(
      context.onset.value.index,
      plan.onsetDependent.map(({ id }) => numberIn(metrics[id])),
    );
  const rules: { id: string; values: readonly (number | undefined)[] }[] = [];
  for (const [id, onset] of Object.entries(context.onsets())) {
    if (!onset.ok) continue;
    let values = byIndex.get(onset.value.index);
    if (values === undefined) {
      const other = withOnset(context, onset);
      values = plan.onsetDependent.map((metric) => numberIn(metric.compute(other)));
      byIndex.set(onset.value.index, values);
    }
    rules.push({ id, values });
  }
  const spread: Record<string, Spread> = {};
  plan.onsetDependent.forEach(({ id }, at) => {
    const by: Record<string, number> = {};
    let min = Number.POSITIVE_INFINITY;
    let max = Number.NEGATIVE_INFINITY;
    for (const rule of rules) {
      const value = rule.values[at];
      if (value === undefined) continue;
      by[rule.id] = value;
      if (value < min) min = value;
      if (value > max) max = value;
    }
    if (min <= max) spread[id] = { min, max, by };
  });
  return spread;
}

const numberIn = (measured: Measured | undefined): number | undefined =>
  measured && 'value' in measured ? measured.value : undefined;
