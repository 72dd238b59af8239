import type { Spread } from '../analysis/result.ts';
import type { Measured } from '../metrics/metric.ts';
import type { JumpContext } from './jump-context.ts';
import type { JumpPlan } from './plan.ts';

/** One other published rule, and the jump under it; undefined where it finds none. */
export interface Variant {
  readonly id: string;
  readonly jump: JumpContext | undefined;
}

/**
 * How far each metric moves under the other published rules of onset and of take-off, one changed at a time.
 *
 * A rule without a jump, and a value with a reason, leave no entry; a metric without any value has no spread.
 *
 * @param own the jump by the method's rules, with what is measured of it already
 */
export function jumpSpread(
  plan: JumpPlan,
  variants: readonly Variant[],
  own: { readonly jump: JumpContext; readonly metrics: Readonly<Record<string, Measured>> },
): Record<string, Spread> {
  const spread: Record<string, Spread> = {};
  for (const metric of plan.metrics) {
    if (!metric.dependsOnOnset) continue;
    const by: Record<string, number> = {};
    for (const { id, jump } of variants) {
      if (jump === undefined) continue;
      const measured = jump === own.jump ? own.metrics[metric.id] : undefined;
      const value = numberIn(measured ?? metric.compute(jump));
      if (value !== undefined) by[id] = value;
    }
    const values = Object.values(by);
    if (values.length > 0) spread[metric.id] = { min: Math.min(...values), max: Math.max(...values), by };
  }
  return spread;
}

const numberIn = (measured: Measured): number | undefined => ('value' in measured ? measured.value : undefined);
