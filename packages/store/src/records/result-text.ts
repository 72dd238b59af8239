import type { TrialResult, Verdict } from '@sthene/core';
import { toJson } from '../json.ts';
import type { ResultVersions } from './result.ts';

/** The metrics of a result as columns; a metric has a value, and then the word is its unit, or none, and then it is the reason. */
export interface MetricColumns {
  readonly ids: readonly string[];
  readonly values: readonly (number | null)[];
  readonly words: readonly string[];
}

/** A result as it is written: made where a trial is judged, also in another thread, so that the writer has only to keep it. */
export interface ResultText {
  /** Method hash. */
  readonly method: string;
  readonly verdict: Verdict;
  /** JSON of the `TrialResult`. */
  readonly document: string;
  /** JSON of the versions. */
  readonly versions: string;
  readonly metrics: MetricColumns;
}

/** Writes a result as text. Throws `bad-value` for a number that is not finite. */
export function resultText(document: TrialResult, versions: ResultVersions): ResultText {
  const ids: string[] = [];
  const values: (number | null)[] = [];
  const words: string[] = [];
  for (const [metric, measured] of Object.entries(document.metrics)) {
    ids.push(metric);
    values.push('value' in measured ? measured.value : null);
    words.push('value' in measured ? measured.unit : measured.reason);
  }
  return {
    method: document.method.sha256,
    verdict: document.verdict,
    document: toJson(document),
    versions: toJson(versions),
    metrics: { ids, values, words },
  };
}
