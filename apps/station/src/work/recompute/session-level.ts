import { meanOf } from '@sthene/core';
import type { MetricValue, RecomputedTrial } from '@sthene/store';
import type { Both } from './compared.ts';

/** Sessions under both methods: under each the mean of the efforts that count by it, which is what is handed out. */
export function sessionsOf(
  trials: readonly RecomputedTrial[],
  values: readonly Both[],
): { readonly both: Both; readonly trial: RecomputedTrial }[] {
  const own = new Map<string, number[]>();
  for (const [at, { session }] of trials.entries()) own.set(session, [...(own.get(session) ?? []), at]);
  return [...own.values()].map((places) => {
    const mean = (which: 0 | 1): MetricValue | undefined => {
      const counting = places.flatMap((at) => {
        const trial = trials[at] as RecomputedTrial;
        const standing = which === 0 ? trial.before?.standing : trial.after?.standing;
        const value = values[at]?.[which];
        return standing === 'counts' && value !== undefined && 'value' in value ? [value] : [];
      });
      const unit = counting[0]?.unit;
      const alike = counting.filter((one) => one.unit === unit);
      return unit === undefined ? undefined : { value: meanOf(alike.map(({ value }) => value)), unit };
    };
    return { both: [mean(0), mean(1)], trial: trials[places[0] as number] as RecomputedTrial };
  });
}
