import { StoreError } from '@sthene/store';
import { ProblemError } from '../../../server/problem-error.ts';

/** Codes of the store that speak of one file and not of the whole database. */
const ofOneFile = new Set(['file-damaged', 'not-found', 'bad-hash']);

/** Why one trial has no result. A fault that is not the trial's, as one of the database, is thrown on. */
export function faultOfTrial(error: unknown): { readonly code: string; readonly words: string } {
  if (error instanceof ProblemError) return { code: error.code, words: error.message };
  if (error instanceof StoreError) {
    if (!ofOneFile.has(error.code)) throw error;
    return { code: error.code, words: error.message };
  }
  // What a reader or a rule did not foresee in this one file must not stop the others.
  return { code: 'unexpected', words: error instanceof Error ? error.message : String(error) };
}
