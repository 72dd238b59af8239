import { type MetricDefinition, metricRegistry } from '@sthene/core';
import { problems } from '../../server/problem-error.ts';

export const usualMetric = 'peak_force';

/** A metric by id, the usual one where none is asked for. */
export function metricNamed(id: string = usualMetric): MetricDefinition {
  const found = metricRegistry.get(id);
  if (found === undefined) throw problems.notFound('metric');
  return found;
}

/** What a screen says of a metric. */
export const metricFacts = ({ id, title, unit, formula, source, better, dependsOnOnset }: MetricDefinition) => ({
  ...{ id, title, unit, formula, source, better, dependsOnOnset },
});

/** Every metric there is, to choose from. */
export const allMetrics = () => metricRegistry.all.map(({ id, title }) => ({ id, title }));
