import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { checkRegistry, metricRegistry } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { pages } from './catalogue.ts';

const core = fileURLToPath(new URL('../../packages/core/src/', import.meta.url));

/** Doc pages of the folders of an extension point, and which ids each names. */
const pagesOf = (kind: 'metrics' | 'checks'): { folder: string; text: string }[] =>
  readdirSync(join(core, kind), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => ({ folder: name, text: readFileSync(join(core, kind, name, 'README.md'), 'utf8') }));

describe('the reference pages', () => {
  it.each(pages.map((page) => [page.path, page] as const))('%s is up to date', (path, page) => {
    expect(readFileSync(path, 'utf8'), 'Run: npx tsx --conditions=source tools/docs/catalogue.ts').toBe(page.text());
  });
});

describe.each([
  ['metrics', metricRegistry.all],
  ['checks', checkRegistry.all],
] as const)('the doc pages beside the %s', (kind, definitions) => {
  it('name every id on the page of exactly one folder', () => {
    const texts = pagesOf(kind);
    for (const { id } of definitions) {
      const naming = texts.filter(({ text }) => text.split('\n').some((line) => line.includes(`\`${id}\``)));
      expect(
        naming.map(({ folder }) => folder),
        id,
      ).toHaveLength(1);
    }
  });
});
