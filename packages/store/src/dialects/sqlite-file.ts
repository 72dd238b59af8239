import SqliteDatabase from 'better-sqlite3';
import { StoreError } from '../errors.ts';
import { checkApplied } from '../migrations/check.ts';
import type { Migration } from '../migrations/migration.ts';
import { translated } from './sqlite.ts';

/** Looks into an existing file without writing; throws when it is not ours or of a newer program. See `migrate`. */
export function refuseForeignFile(file: string, migrations: readonly Migration[]): void {
  translated(() => {
    const database = new SqliteDatabase(file, { readonly: true, fileMustExist: true });
    try {
      const tables = database.prepare("select name from sqlite_master where type = 'table'").pluck().all();
      if (tables.length === 0) return;
      if (!tables.includes('schema_migrations')) {
        throw new StoreError('not-a-store', 'The file is a database of something else. Choose another one.');
      }
      const applied = database.prepare('select number, name from schema_migrations order by number').all();
      checkApplied(applied as { number: number; name: string }[], migrations);
    } finally {
      database.close();
    }
  });
}
