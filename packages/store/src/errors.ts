/** Every fault the store reports. Codes are permanent; docs/reference/store.md lists them, a test keeps both equal. */
export const storeErrorCodes = [
  'already-there',
  'append-only',
  'backup-failed',
  'backup-needed',
  'bad-hash',
  'bad-value',
  'busy',
  'changed-meanwhile',
  'closed',
  'database-failed',
  'disk-failed',
  'disk-full',
  'file-damaged',
  'method-changed',
  'not-a-store',
  'not-found',
  'refers-to-nothing',
  'schema-migration-failed',
  'schema-migration-missing',
  'schema-newer',
  'schema-reordered',
  'text-not-storable',
  'transaction-failed',
] as const;

export type StoreErrorCode = (typeof storeErrorCodes)[number];

/** Facts beside a code: table, field and column names, numbers, hashes, engine codes; never a stored value. */
export type ErrorFacts = Readonly<Record<string, string | number | boolean>>;

/**
 * A programming or input/output fault. Looking for something that is not there is no fault and gives `undefined`.
 *
 * The engine's own message is left out on purpose: PostgreSQL quotes the values of a broken constraint, and a log must not
 * hold personal values. What helps a search for the cause (engine code, constraint name) stands in `facts`.
 */
export class StoreError extends Error {
  readonly code: StoreErrorCode;
  readonly facts: ErrorFacts;

  constructor(code: StoreErrorCode, message: string, facts: ErrorFacts = {}) {
    super(message);
    this.name = 'StoreError';
    this.code = code;
    this.facts = facts;
  }
}
