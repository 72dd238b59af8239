import type { MetricFacts } from '@sthene/core';
import { ratioDefinitions } from './definitions.ts';

/** Ratios of two values that are followed like a metric, by the tests on whose pages they are offered. */
const followed: Readonly<Record<string, readonly string[]>> = {
  dynamic_strength_index: ['imtp', 'countermovement-jump'],
  eccentric_utilisation_ratio: ['countermovement-jump', 'squat-jump'],
};

const facts: readonly MetricFacts[] = ratioDefinitions
  .filter(({ id }) => followed[id] !== undefined)
  .map(({ id, title, unit, formula, source }) => ({
    ...{ id, version: 1, title, unit, formula, source },
    // A higher index is no better athlete.
    ...{ better: 'neither', dependsOnOnset: false, rate: false },
  }));

export const isRatioMetric = (id: string): boolean => followed[id] !== undefined;

/** Facts of the ratios a test has a part in. */
export const ratioMetricsOf = (test: string): readonly MetricFacts[] =>
  facts.filter(({ id }) => followed[id]?.includes(test) === true);
