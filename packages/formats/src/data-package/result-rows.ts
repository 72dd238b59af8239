import { metricFacts, type TrialResult } from '@sthene/core';
import type { ResultRow } from './results.ts';

/** Every metric of a trial as rows of a package's results, under the name the trial's curve has. */
export function resultRowsOf(trial: string, result: Pick<TrialResult, 'metrics'>): ResultRow[] {
  return Object.entries(result.metrics).map(([metric, measured]) =>
    'reason' in measured
      ? { trial, metric, value: null, unit: metricFacts.get(metric)?.unit ?? '1', reason: measured.reason }
      : { trial, metric, value: measured.value, unit: measured.unit, reason: null },
  );
}

/** A name as a package wants it: lower-case letters, digits, `.`, `-`, `_`; `fallback` where nothing is left. */
export function packageName(text: string, fallback: string): string {
  const plain = text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9._-]+/g, '-')
    .replace(/^[-.]+|[-.]+$/g, '');
  return plain === '' || plain === 'results' || plain === 'readme' ? fallback : plain;
}
