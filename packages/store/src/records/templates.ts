import type { UtcInstant } from '@sthene/core';
import { addRecord, type Changes, changeRecord, type RecordTable } from '../changes.ts';
import type { TemplateRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import type { ChangeOptions } from '../revisions.ts';
import { inTransaction, type Scope } from '../scope.ts';
import { filled } from '../values.ts';

/** A remembered mapping from a file's columns, offered when a header matches. `M` is the importer's own mapping type. */
export interface ImportTemplate<M = unknown> {
  readonly id: string;
  readonly revision: number;
  /** Unique. */
  readonly name: string;
  /** What the importer made of the header; equal signatures mean the mapping fits. */
  readonly headerSignature: string;
  readonly mapping: M;
  readonly lastUsedAt?: UtcInstant;
}

type TemplateFields = Omit<ImportTemplate, 'id' | 'revision' | 'lastUsedAt'>;

export interface TemplateRepository {
  add(template: TemplateFields, actor: Actor): Promise<ImportTemplate>;
  change(id: string, changes: Changes<TemplateFields>, actor: Actor, options?: ChangeOptions): Promise<ImportTemplate>;
  /** Notes that it was used now. */
  use(id: string, actor: Actor): Promise<ImportTemplate>;
  get(id: string): Promise<ImportTemplate | undefined>;
  /** Templates for a header, last used first, never used ones after them by name. */
  forHeader(signature: string): Promise<ImportTemplate[]>;
  /** By name. */
  list(): Promise<ImportTemplate[]>;
}

const table: RecordTable<ImportTemplate> = {
  kind: 'template',
  read: async ({ db }, id) => {
    const row = await db.selectFrom('importTemplates').selectAll().where('id', '=', id).executeTakeFirst();
    return row && toTemplate(row);
  },
  check: (template) => {
    filled('name', template.name);
    filled('headerSignature', template.headerSignature);
  },
  insert: async ({ db }, template) => {
    await db.insertInto('importTemplates').values(toRow(template)).execute();
  },
  update: async ({ db }, template) => {
    const { id, ...row } = toRow(template);
    await db.updateTable('importTemplates').set(row).where('id', '=', id).execute();
  },
};

export function templateRepository(scope: Scope): TemplateRepository {
  const all = () => scope.db.selectFrom('importTemplates').selectAll();
  return {
    add: (template, actor) => addRecord(scope, table, { ...template, id: scope.ids.next(), revision: 1 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    use: (id, actor) =>
      inTransaction(scope, (inner) => {
        const lastUsedAt = inner.clock.now();
        return changeRecord(inner, table, id, { lastUsedAt }, actor, { action: 'template.use' });
      }),
    async get(id) {
      const row = await all().where('id', '=', id).executeTakeFirst();
      return row && toTemplate(row);
    },
    async forHeader(signature) {
      const rows = await all().where('headerSignature', '=', signature).orderBy('name').execute();
      // Sorted here: the engines put null at different ends. Sorting is stable, so names stay in order.
      return rows.map(toTemplate).sort((a, b) => compare(b.lastUsedAt ?? '', a.lastUsedAt ?? ''));
    },
    list: async () => (await all().orderBy('name').execute()).map(toTemplate),
  };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function toRow(template: ImportTemplate): TemplateRow {
  return {
    id: template.id,
    revision: template.revision,
    name: template.name,
    headerSignature: template.headerSignature,
    mapping: toJson(template.mapping),
    lastUsedAt: template.lastUsedAt ?? null,
  };
}

function toTemplate(row: TemplateRow): ImportTemplate {
  return {
    id: row.id,
    revision: row.revision,
    name: row.name,
    headerSignature: row.headerSignature,
    mapping: fromJson<unknown>(row.mapping),
    ...(row.lastUsedAt === null ? {} : { lastUsedAt: row.lastUsedAt as UtcInstant }),
  };
}
