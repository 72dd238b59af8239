import { followedRatios } from '@sthene/contract';
import type { MetricFacts } from '@sthene/core';
import { ratioDefinitions } from './definitions.ts';

const followed: Readonly<Record<string, readonly string[]>> = followedRatios;

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
