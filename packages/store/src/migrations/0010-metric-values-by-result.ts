import type { Migration } from './migration.ts';

/**
 * Every question asks for values of results it knows, which the primary key answers. The index by metric was never needed, and to keep
 * it took longer than all the rest of keeping a result.
 */
export const metricValuesByResult: Migration = {
  number: 10,
  name: 'metric-values-by-result',
  statements: () => ['drop index metric_values_by_metric'],
};
