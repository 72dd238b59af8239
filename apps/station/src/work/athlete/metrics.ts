import {
  metricFacts as everyMetric,
  headlineMetric,
  type MetricFacts,
  metricFactsOf,
  protocolRegistry,
} from '@sthene/core';
import { problems } from '../../server/problem-error.ts';
import { isRatioMetric, ratioMetricsOf } from '../battery/ratio-metrics.ts';

export const usualMetric = 'peak_force';

/** A metric, or a ratio the test has a part in, by exactly this id. */
export const metricOf = (id: string, test: string): MetricFacts | undefined =>
  ratioMetricsOf(test).find((one) => one.id === id) ?? everyMetric.get(id);

/**
 * A metric or a ratio by id. Where none is asked for, or one that the test does not give (another test was chosen before), it is the one by which
 * efforts of the test are ranked.
 */
export function metricNamed(id?: string, test?: string): MetricFacts {
  const ratio = test === undefined ? undefined : ratioMetricsOf(test).find((one) => one.id === id);
  if (ratio !== undefined) return ratio;
  // A ratio of other tests, chosen before this one.
  if (test !== undefined && id !== undefined && isRatioMetric(id)) return metricNamed(undefined, test);
  const asked = everyMetric.get(id ?? usualMetric);
  if (asked === undefined) throw problems.notFound('metric');
  if (test === undefined || metricFactsOf(test).includes(asked)) return asked;
  return everyMetric.get(headlineMetric(test)) ?? asked;
}

const isJump = (test: string): boolean => protocolRegistry.get(test)?.jump !== undefined;

/** The value of one leg in a test on both. */
export const metricOfLeg = (test: string, limb: 'left' | 'right'): string =>
  isJump(test) ? `${limb}_propulsion_mean_force` : `${limb}_peak_force`;

/** The difference between the legs that is looked at first. */
export const usualAsymmetry = (test = ''): string =>
  isJump(test) ? 'asymmetry_propulsion_impulse' : 'asymmetry_at_peak';

/** What a screen says of a metric. */
export const metricFacts = ({ id, title, unit, formula, source, better, dependsOnOnset }: MetricFacts) => ({
  ...{ id, title, unit, formula, source, better, dependsOnOnset },
});

/** Every metric a test gives and the ratios it has a part in, to choose from; those of isometric tests where no test is chosen. */
export const metricsToChoose = (test = '') =>
  [...metricFactsOf(test), ...ratioMetricsOf(test)].map(({ id, title }) => ({ id, title }));
