import type { TrialResult } from '@sthene/core';

/** As many as a long test day has efforts; each is a few hundred kilobytes of objects at most. */
const most = 160;

/**
 * Documents of results read last, by the result's id: a day is looked at again after each effort and each note, and reading the text
 * of every effort of it each time would be most of the work. A result never changes, so neither does what is kept here.
 */
export interface KeptDocuments {
  get(id: string): TrialResult | undefined;
  put(id: string, document: TrialResult): void;
}

export function keptDocuments(): KeptDocuments {
  const kept = new Map<string, TrialResult>();
  return {
    get(id) {
      const document = kept.get(id);
      if (document === undefined) return undefined;
      kept.delete(id);
      kept.set(id, document);
      return document;
    },
    put(id, document) {
      if (kept.size >= most) kept.delete(kept.keys().next().value as string);
      kept.set(id, document);
    },
  };
}
