import type { TrialResult } from '@sthene/core';

/** Characters of their texts together. As objects they take a few times as much, so a station of one gigabyte has room for them. */
const most = 16_000_000;

/**
 * Documents of results read last, by the result's id: a day is looked at again after each effort and each note, and reading the text
 * of every effort of it each time would be most of the work. A result never changes, so neither does what is kept here.
 */
export interface KeptDocuments {
  get(id: string): TrialResult | undefined;
  /** @param size characters of its text; one that is larger than all may be together is not kept */
  put(id: string, document: TrialResult, size: number): void;
}

/** @param room characters that may be kept together; those that were asked for longest ago make way */
export function keptDocuments(room = most): KeptDocuments {
  const kept = new Map<string, { readonly document: TrialResult; readonly size: number }>();
  let together = 0;
  const drop = (id: string): void => {
    together -= kept.get(id)?.size ?? 0;
    kept.delete(id);
  };
  return {
    get(id) {
      const found = kept.get(id);
      if (found === undefined) return undefined;
      kept.delete(id);
      kept.set(id, found);
      return found.document;
    },
    put(id, document, size) {
      drop(id);
      if (size > room) return;
      for (const oldest of kept.keys()) {
        if (together + size <= room) break;
        drop(oldest);
      }
      kept.set(id, { document, size });
      together += size;
    },
  };
}
