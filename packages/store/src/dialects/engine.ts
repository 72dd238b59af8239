import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';

export type EngineKind = 'sqlite' | 'postgres';

/** Which database to open. */
export type EngineOptions =
  | {
      readonly kind: 'sqlite';
      /** Path of the database file; it is made when absent, its folder must exist. */
      readonly file: string;
      /** How long a writer waits for another process, ms; 10 000 unless given. */
      readonly busyTimeout?: number;
    }
  | {
      readonly kind: 'postgres';
      /** Connection string, `postgres://user@host:port/database`. */
      readonly connection: string;
      /** Most connections held open; 5 unless given. */
      readonly connections?: number;
      /** How long a writer waits for another one, ms; 10 000 unless given. */
      readonly busyTimeout?: number;
    };

/** An open database with what only its engine can do. */
export interface Engine {
  readonly kind: EngineKind;
  readonly db: Kysely<Database>;
  /** True when the database holds tables already. */
  readonly hasTables: () => Promise<boolean>;
  /** First statement of each writing transaction: makes writers queue, so that the audit chain has one order. */
  readonly queue: (db: Kysely<Database>) => Promise<void>;
  /** Copies the database into a new file; absent where the server has its own tools. */
  readonly copyTo?: (file: string) => Promise<void>;
}

/** Waiting time for another writer unless given, ms. */
export const defaultBusyTimeout = 10_000;
