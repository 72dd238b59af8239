import type { PlateHistory, RigCheckDocument, RigCheckResult } from '@sthene/core';

/** One kept check of a rig with known masses. */
export interface PlatesInput {
  readonly rig: { readonly name: string; readonly letter: string };
  /** Sources of the rig, as they are named. */
  readonly sources: readonly string[];
  readonly at: string;
  readonly by: string;
  readonly note: string;
  readonly document: RigCheckDocument;
  readonly result: RigCheckResult;
  /** Each plate over the checks of the rig up to this one. */
  readonly history: readonly PlateHistory[];
  /** When the next check is due; absent where this one does not count. */
  readonly due?: string;
  /** Hash of what was read, so that a page can be held against what is kept. */
  readonly sha256: string;
}
