import { readFileSync } from 'node:fs';
import { liveRoutes, toOperator, toStation, toWall } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { schemaDocument } from './schema.ts';
import { page, pageWith, schemaFile } from './write.ts';

const again = 'Run: npx tsx --conditions=source tools/docs/live-interface/write.ts';
const text = readFileSync(page, 'utf8');

describe('the page of the live interface', () => {
  it('says what the schemas say', () => {
    expect(text, again).toBe(pageWith(text));
    expect(readFileSync(schemaFile, 'utf8'), again).toBe(schemaDocument());
  });

  it('has a section for every message and a line for every route', () => {
    for (const union of [toStation, toOperator, toWall])
      for (const { shape } of union.options) expect(text).toContain(`#### \`${shape.type.value}\`\n`);
    for (const { method, path } of Object.values(liveRoutes)) expect(text).toContain(`| \`${method} ${path}\` |`);
  });

  it('links only to headings that are there', () => {
    const headings = new Set(
      [...text.matchAll(/^#+ (.+)$/gm)].map(([, title = '']) =>
        title
          .toLowerCase()
          .replaceAll('`', '')
          .replace(/[^a-z0-9 -]/g, '')
          .replaceAll(' ', '-'),
      ),
    );
    const missing = [...text.matchAll(/\]\(#([^)]+)\)/g)].flatMap(([, to = '']) => (headings.has(to) ? [] : [to]));
    expect(missing).toEqual([]);
  });

  it('cannot be written where a place for a table is missing', () => {
    expect(() => pageWith(text.replace('<!-- written: routes -->', ''))).toThrow('no place for "routes"');
  });
});
