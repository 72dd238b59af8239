import { StoreError } from '../errors.ts';
import type { Migration } from './migration.ts';

/** A migration as a database remembers it. */
export interface Applied {
  readonly number: number;
  readonly name: string;
}

/**
 * Compares what a database remembers, in order of number, with the known migrations. Throws `schema-newer`,
 * `schema-migration-missing` or `schema-reordered`.
 */
export function checkApplied(applied: readonly Applied[], known: readonly Migration[]): void {
  const newest = applied.at(-1)?.number ?? 0;
  if (newest > known.length) {
    throw new StoreError(
      'schema-newer',
      `The database was written by a newer version (schema ${newest}; this one knows ${known.length}). ` +
        'It has been left untouched; use the newer version.',
      { found: newest, known: known.length },
    );
  }
  for (const [index, { number, name }] of applied.entries()) {
    if (number !== index + 1) {
      throw new StoreError('schema-migration-missing', `Migration ${index + 1} is missing from this database.`, {
        number: index + 1,
      });
    }
    if (known[index]?.name !== name) {
      throw new StoreError('schema-reordered', `Migration ${number} of this database is another one than ours.`, {
        number,
      });
    }
  }
}
