import type { EngineKind } from '../dialects/engine.ts';

/**
 * One step of the schema. Shipped steps are frozen: their file hashes are checked in, and a change to the schema is a new
 * file with the next number.
 */
export interface Migration {
  /** 1, 2, 3, ... without a hole. */
  readonly number: number;
  readonly name: string;
  /** SQL statements in order; one transaction runs all of them. */
  readonly statements: (engine: EngineKind) => readonly string[];
}
