import type { Engine, EngineOptions } from './engine.ts';
import { openPostgres } from './postgres.ts';
import { openSqlite } from './sqlite.ts';

/** Opens the database the options name. */
export function openEngine(options: EngineOptions): Engine {
  return options.kind === 'sqlite' ? openSqlite(options) : openPostgres(options);
}
