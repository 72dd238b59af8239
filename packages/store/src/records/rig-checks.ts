import type { PlateCorrection, RigCheckDocument, RigCheckResult, UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import { rowHash } from '../audit/row-hash.ts';
import type { Database, RigCheckRow, RigCorrectionRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { type Scope, type Writing, write } from '../scope.ts';
import { filled, finite, instant, positive, written } from '../values.ts';

/** Who wrote a record that only grows, and when. */
interface Signed {
  readonly at: UtcInstant;
  readonly by: string;
  readonly role?: string;
  readonly station: string;
}

/** One check of a rig with known masses: what was read, and what was made of it. */
export interface RigCheck extends Signed {
  readonly id: string;
  readonly rig: string;
  readonly document: RigCheckDocument;
  readonly result: RigCheckResult;
  readonly note: string;
}

/** A correction of a rig's plates. The newest of a rig is in force; one without plates takes the earlier ones back. */
export interface RigCorrection extends Signed {
  readonly id: string;
  readonly rig: string;
  /** The check it came from; absent where somebody took corrections back. */
  readonly check?: string;
  readonly plates: readonly PlateCorrection[];
  readonly reason: string;
}

export interface RigCheckRepository {
  /** Keeps a check that was made `at`, or just now. Throws `not-found` without its rig, `bad-value`. */
  add(
    check: Pick<RigCheck, 'rig' | 'document' | 'result' | 'note'> & { readonly at?: UtcInstant },
    actor: Actor,
  ): Promise<RigCheck>;
  get(id: string): Promise<RigCheck | undefined>;
  /** In the order of their making. */
  ofRig(rig: string): Promise<RigCheck[]>;
  /** Adopts a correction; needs a reason. Throws `not-found`, `bad-value`. */
  correct(correction: Pick<RigCorrection, 'rig' | 'check' | 'plates' | 'reason'>, actor: Actor): Promise<RigCorrection>;
  /** Corrections of a rig, oldest first; the last one is in force. */
  corrections(rig: string): Promise<RigCorrection[]>;
}

export function rigCheckRepository(scope: Scope): RigCheckRepository {
  return {
    add: ({ rig, document, result, note, at }, actor) =>
      write(scope, actor, async (writing) => {
        await rigMustBe(writing.db, rig);
        const row: Omit<RigCheckRow, 'sequence'> = {
          ...{ id: scope.ids.next(), rigId: rig, ...signature(writing) },
          at: at === undefined ? writing.at : instant('at', at),
          ...{ document: toJson(document), result: toJson(result), verdict: result.verdict, note },
        };
        const sequence = await writing.note({
          action: 'rig.check',
          subject: { kind: 'rig', id: rig },
          details: { record: row.id, sha256: rowHash(row), verdict: row.verdict },
        });
        await writing.db
          .insertInto('rigChecks')
          .values({ ...row, sequence })
          .execute();
        return toCheck({ ...row, sequence });
      }),
    async get(id) {
      const row = await scope.db.selectFrom('rigChecks').selectAll().where('id', '=', id).executeTakeFirst();
      return row && toCheck(row);
    },
    async ofRig(rig) {
      const rows = await scope.db
        .selectFrom('rigChecks')
        .selectAll()
        .where('rigId', '=', rig)
        .orderBy('at')
        .orderBy('sequence')
        .execute();
      return rows.map(toCheck);
    },
    correct: ({ rig, check, plates, reason }, actor) =>
      write(scope, actor, async (writing) => {
        await rigMustBe(writing.db, rig);
        if (check !== undefined) await checkMustBeOf(writing.db, check, rig);
        written('reason', reason);
        for (const { plate, gain, offset } of plates) {
          filled('plate', plate);
          positive('gain', gain);
          finite('offset', offset);
        }
        const row: Omit<RigCorrectionRow, 'sequence'> = {
          ...{ id: scope.ids.next(), rigId: rig, checkId: check ?? null, ...signature(writing) },
          ...{ plates: toJson(plates), reason },
        };
        const sequence = await writing.note({
          action: 'rig.correct',
          subject: { kind: 'rig', id: rig },
          details: {
            record: row.id,
            sha256: rowHash(row),
            plates: plates.length,
            ...(check === undefined ? {} : { check }),
          },
        });
        await writing.db
          .insertInto('rigCorrections')
          .values({ ...row, sequence })
          .execute();
        return toCorrection({ ...row, sequence });
      }),
    async corrections(rig) {
      const rows = await scope.db
        .selectFrom('rigCorrections')
        .selectAll()
        .where('rigId', '=', rig)
        .orderBy('sequence')
        .execute();
      return rows.map(toCorrection);
    },
  };
}

const signature = ({ actor, at }: Writing) => ({
  ...{ at, by: actor.by, role: actor.role ?? null, station: actor.station },
});

async function rigMustBe(db: Kysely<Database>, id: string): Promise<void> {
  const rig = await db.selectFrom('rigs').select('id').where('id', '=', id).executeTakeFirst();
  if (rig === undefined) throw new StoreError('not-found', 'There is no such rig.', { kind: 'rig' });
}

async function checkMustBeOf(db: Kysely<Database>, id: string, rig: string): Promise<void> {
  const check = await db.selectFrom('rigChecks').select('rigId').where('id', '=', id).executeTakeFirst();
  if (check?.rigId !== rig) throw new StoreError('not-found', 'There is no such check of this rig.', { kind: 'check' });
}

const signed = (row: { at: string; by: string; role: string | null; station: string }): Signed => ({
  ...{ at: row.at as UtcInstant, by: row.by, station: row.station },
  ...(row.role === null ? {} : { role: row.role }),
});

const toCheck = (row: RigCheckRow): RigCheck => ({
  ...{ id: row.id, rig: row.rigId, note: row.note, ...signed(row) },
  document: fromJson<RigCheckDocument>(row.document),
  result: fromJson<RigCheckResult>(row.result),
});

const toCorrection = (row: RigCorrectionRow): RigCorrection => ({
  ...{ id: row.id, rig: row.rigId, reason: row.reason, ...signed(row) },
  ...(row.checkId === null ? {} : { check: row.checkId }),
  plates: fromJson<PlateCorrection[]>(row.plates),
});
