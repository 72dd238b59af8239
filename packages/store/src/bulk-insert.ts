import { CompiledQuery, type Insertable, type InsertQueryBuilder, type Kysely } from 'kysely';
import type { Database } from './database.ts';
import type { Engine } from './dialects/engine.ts';
import type { Scope } from './scope.ts';

/** Rows of one statement, largest first: few texts, so that each is built and prepared once. */
const sizes = [512, 64, 8, 1] as const;

/** Inserts rows whose values lie one after the other, in the order of the columns. */
export type RowInserter = (scope: Pick<Scope, 'db' | 'engine'>, values: readonly unknown[]) => Promise<void>;

/**
 * Makes an inserter of many rows: building a statement for thousands of values takes longer than running it, so its text is built
 * once for each engine and number of rows.
 *
 * @param finish what else the statement says, as what becomes of rows that are there
 */
export function rowsInto<T extends keyof Database & string>(
  table: T,
  columns: readonly (keyof Database[T] & string)[],
  finish: (query: InsertQueryBuilder<Database, T, never>) => { compile(): { readonly sql: string } } = (query) => query,
): RowInserter {
  const known = new WeakMap<Engine, Map<number, string>>();
  const row = Object.fromEntries(columns.map((column) => [column, 0])) as unknown as Insertable<Database[T]>;
  const textFor = (db: Kysely<Database>, engine: Engine, rows: number): string => {
    const texts = known.get(engine) ?? new Map<number, string>();
    known.set(engine, texts);
    let text = texts.get(rows);
    if (text === undefined) {
      const query = db.insertInto(table).values(Array.from({ length: rows }, () => row));
      text = finish(query as unknown as InsertQueryBuilder<Database, T, never>).compile().sql;
      texts.set(rows, text);
    }
    return text;
  };
  return async ({ db, engine }, values) => {
    const width = columns.length;
    let at = 0;
    for (const rows of sizes) {
      for (; at + rows * width <= values.length; at += rows * width) {
        const text = textFor(db, engine, rows);
        await db.executeQuery(CompiledQuery.raw(text, values.slice(at, at + rows * width)));
      }
    }
    if (at !== values.length) throw new RangeError(`${values.length} values are no whole rows of ${width}.`);
  };
}
