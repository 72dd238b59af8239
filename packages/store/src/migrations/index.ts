import { firstSchema } from './0001-first-schema.ts';
import { live } from './0002-live.ts';
import type { Migration } from './migration.ts';

/** Every migration, in order of its number. */
export const migrations: readonly Migration[] = [firstSchema, live];
