import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import { chainStart, entryHash } from './entry.ts';

/** The end of a chain, small enough to print on a report or to keep with a backup. */
export interface ChainEnd {
  readonly sequence: number;
  readonly hash: string;
}

/** What is wrong with a chain. */
export type ChainProblem =
  /** The entry's content does not give its hash. */
  | 'edited'
  /** The entry's number is not the one that must come next. */
  | 'removed'
  /** The entry does not follow the one before it: swapped, inserted, or edited and hashed anew. */
  | 'broken-link'
  /** The chain ends before the kept end. */
  | 'truncated'
  /** The entry at the kept end's number has another hash: everything up to it may have been written anew. */
  | 'rewritten';

/** `last` is the end of the chain to keep elsewhere; sequence 0 for an empty one. */
export type AuditVerdict =
  | { readonly intact: true; readonly entries: number; readonly last: ChainEnd }
  | { readonly intact: false; readonly problem: ChainProblem; readonly sequence: number };

const page = 1_000;

/**
 * Walks the whole chain in order and reports the first entry that is wrong.
 *
 * A chain alone cannot show that its tail was cut off, or that all of it was written anew; for that `kept` is needed, an
 * end returned earlier and stored outside this database.
 */
export async function verifyChain(db: Kysely<Database>, kept?: ChainEnd): Promise<AuditVerdict> {
  let last: ChainEnd = { sequence: 0, hash: chainStart };
  let keptSeen = kept === undefined || kept.sequence === 0;
  for (;;) {
    const rows = await db
      .selectFrom('audit')
      .selectAll()
      .where('sequence', '>', last.sequence)
      .orderBy('sequence')
      .limit(page)
      .execute();
    for (const row of rows) {
      const problem = problemOf(row, last);
      if (problem !== undefined) return { intact: false, ...problem };
      if (kept !== undefined && row.sequence === kept.sequence) {
        if (row.hash !== kept.hash) return { intact: false, problem: 'rewritten', sequence: row.sequence };
        keptSeen = true;
      }
      last = { sequence: row.sequence, hash: row.hash };
    }
    if (rows.length < page) break;
  }
  if (!keptSeen) return { intact: false, problem: 'truncated', sequence: last.sequence + 1 };
  return { intact: true, entries: last.sequence, last };
}

function problemOf(
  row: Parameters<typeof entryHash>[0] & ChainEnd,
  last: ChainEnd,
): { problem: ChainProblem; sequence: number } | undefined {
  const expected = last.sequence + 1;
  if (row.sequence !== expected) return { problem: 'removed', sequence: expected };
  if (entryHash(row) !== row.hash) return { problem: 'edited', sequence: expected };
  if (row.previousHash !== last.hash) return { problem: 'broken-link', sequence: expected };
  return undefined;
}
