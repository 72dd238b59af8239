import type { Kysely } from 'kysely';
import type { RecordTable } from '../changes.ts';
import type { Database } from '../database.ts';
import type { RevisedKind } from '../revisions.ts';

/** Tables whose rows have an id and a revision. */
type NamedTable = {
  [K in keyof Database]: Database[K] extends { id: string; revision: number } ? K : never;
}[keyof Database];

/** How one kind of record lies in its table. */
export interface RecordShape<T, K extends NamedTable> {
  readonly kind: RevisedKind;
  readonly table: K;
  readonly toRow: (record: T) => Database[K];
  readonly fromRow: (row: Database[K]) => T;
  /** Checks a record at the door; throws `bad-value`. */
  readonly check: (record: T) => void;
}

/** Reads, writes and replaces whole rows by id, which is all a plain record needs. */
export function recordTable<T extends { readonly id: string; readonly revision: number }, K extends NamedTable>(
  shape: RecordShape<T, K>,
): RecordTable<T> {
  return {
    kind: shape.kind,
    check: shape.check,
    read: ({ db }, id) => readRecord(db, shape, id),
    insert: async ({ db }, record) => {
      await db
        .insertInto(shape.table as 'rigs')
        .values(shape.toRow(record) as never)
        .execute();
    },
    update: async ({ db }, record) => {
      const { id, ...row } = shape.toRow(record);
      await db
        .updateTable(shape.table as 'rigs')
        .set(row as never)
        .where('id', '=', id as string)
        .execute();
    },
  };
}

/** One record by id. */
export async function readRecord<T, K extends NamedTable>(
  db: Kysely<Database>,
  shape: RecordShape<T, K>,
  id: string,
): Promise<T | undefined> {
  // The compiler cannot follow a table name that is a parameter; every such table has an id.
  const row = await db
    .selectFrom(shape.table as 'rigs')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst();
  return row && shape.fromRow(row as never);
}
