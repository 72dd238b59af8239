import { headlineMetric } from '../facts/facts.ts';
import type { TrialResult } from './result.ts';

/**
 * What a day asks of a result for as long as it lasts: how it was judged, what ranks it, when it ended. Every rule, value and piece of
 * evidence beside that is many times as much, and stays with the result itself.
 */
export type ResultInShort = Pick<
  TrialResult,
  'test' | 'verdict' | 'metrics' | 'checks' | 'events' | 'jump' | 'bodyWeight'
>;

/** A result with no metrics but those by which efforts are ranked and listed. */
export function inShort({ test, verdict, metrics, checks, events, jump, bodyWeight }: ResultInShort): ResultInShort {
  const kept = new Set([headlineMetric(test), 'peak_force', 'rfd_0_200']);
  return {
    test,
    verdict,
    metrics: Object.fromEntries(Object.entries(metrics).filter(([metric]) => kept.has(metric))),
    checks,
    ...(events === undefined ? {} : { events }),
    ...(jump === undefined ? {} : { jump }),
    bodyWeight,
  };
}
