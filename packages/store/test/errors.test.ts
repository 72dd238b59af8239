import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { storeErrorCodes } from '../src/index.ts';

const read = (path: string) => readFileSync(new URL(path, import.meta.url), 'utf8');

it('explains every error code in the reference, and no other', () => {
  const section = read('../../../docs/reference/store.md').split('## Error codes')[1] ?? '';
  const documented = [...section.matchAll(/^\| `([a-z-]+)` \|/gm)].map(([, code]) => code);
  expect(documented).toEqual([...storeErrorCodes]);
});

it('names every table of the schema in the reference', () => {
  const tables = [...read('../schema/sqlite.sql').matchAll(/create table "?(\w+)"?/gi)].map(([, name]) => name);
  expect(tables.length).toBeGreaterThan(10);
  const section = read('../../../docs/reference/store.md').split('## Tables')[1]?.split('## ')[0] ?? '';
  expect(tables.filter((name) => !section.includes(`\`${name}\``))).toEqual([]);
});
