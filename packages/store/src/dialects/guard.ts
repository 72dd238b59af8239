import { StoreError } from '../errors.ts';
import { isWellFormed } from '../values.ts';

/**
 * Checks what is about to be bound to a statement, so that both engines keep exactly what they were given: SQLite would
 * store NaN as NULL, PostgreSQL refuses the NUL character, and both replace half of a surrogate pair without a word.
 */
export function checkParameters(parameters: readonly unknown[]): void {
  for (const value of parameters) {
    if (typeof value === 'number' && !Number.isFinite(value)) {
      throw new StoreError('bad-value', 'A number that is not finite cannot be stored.');
    }
    if (typeof value === 'string' && (value.includes('\0') || !isWellFormed(value))) {
      throw new StoreError(
        'text-not-storable',
        'Text with the NUL character or half a surrogate pair cannot be stored without changing it.',
      );
    }
  }
}

/** What an engine error means, in our words and without the values it quotes. */
export function engineFault(code: string, constraint: string | undefined): StoreError {
  const facts = constraint === undefined ? { engineCode: code } : { engineCode: code, constraint };
  const known = faults[code] ?? (code.startsWith('SQLITE_BUSY') ? faults.SQLITE_BUSY : undefined);
  if (known !== undefined) return new StoreError(known[0], known[1], facts);
  return new StoreError('database-failed', `The database could not do what was asked (${code}).`, facts);
}

type Fault = readonly [code: StoreError['code'], message: string];

const taken: Fault = ['already-there', 'There is already a record with this key.'];
const dangling: Fault = ['refers-to-nothing', 'The record names another one that does not exist.'];
const grown: Fault = ['append-only', 'This table only grows; its rows are never changed or removed.'];
const refused: Fault = ['bad-value', 'The database refused a value that breaks a rule of its column.'];
const busy: Fault = ['busy', 'Another writer held the database for too long. Nothing was written; try again.'];
const full: Fault = ['disk-full', 'The disk that holds the database is full. Nothing was written.'];
const foreign: Fault = ['not-a-store', 'The file is not a database of this program.'];

const faults: Readonly<Record<string, Fault>> = {
  SQLITE_CONSTRAINT_UNIQUE: taken,
  SQLITE_CONSTRAINT_PRIMARYKEY: taken,
  SQLITE_CONSTRAINT_FOREIGNKEY: dangling,
  SQLITE_CONSTRAINT_TRIGGER: grown,
  SQLITE_CONSTRAINT_CHECK: refused,
  SQLITE_CONSTRAINT_NOTNULL: refused,
  SQLITE_BUSY: busy,
  SQLITE_FULL: full,
  SQLITE_NOTADB: foreign,
  // PostgreSQL 15, appendix A: error codes.
  '23505': taken,
  '23503': dangling,
  '23001': grown,
  '23514': refused,
  '23502': refused,
  '22003': refused,
  '55P03': busy,
  '53100': full,
};
