import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';

/** What a metric's history must look at again. */
export interface ChangedSince {
  /** Sessions that were written about, and those in which trials that were written about lie now. */
  readonly sessions: readonly string[];
  /** Trials that were written about: one may have lain in another session before. */
  readonly trials: readonly string[];
}

/**
 * What was written about trials and sessions after an entry of the audit trail: trials, their results and decisions, sessions.
 *
 * @param most subjects that are worth telling apart
 * @returns undefined where there are more, or where a recomputation was adopted: then everything may be another
 */
export async function changedSince(
  db: Kysely<Database>,
  sequence: number,
  most: number,
): Promise<ChangedSince | undefined> {
  const rows = await db
    .selectFrom('audit')
    .select(['subjectKind', 'subjectId'])
    .distinct()
    .where('sequence', '>', sequence)
    .where((is) => is.or([is('subjectKind', 'in', ['trial', 'session']), is('action', '=', 'recomputation.adopt')]))
    .limit(most + 1)
    .execute();
  if (rows.length > most || rows.some(({ subjectKind }) => subjectKind === 'recomputation')) return undefined;
  const idsOf = (kind: string) => rows.flatMap((row) => (row.subjectKind === kind ? [row.subjectId] : []));
  const [sessions, trials] = [idsOf('session'), idsOf('trial')];
  if (trials.length === 0) return { sessions, trials };
  const homes = await db.selectFrom('trials').select('sessionId').distinct().where('id', 'in', trials).execute();
  return { sessions: [...new Set([...sessions, ...homes.map(({ sessionId }) => sessionId)])], trials };
}
