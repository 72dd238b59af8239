import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');

/** Every page of the repository that people read. */
function pages(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    if (entry.name.startsWith('.') || entry.name === 'node_modules' || entry.name.startsWith('dist')) return [];
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return pages(path);
    return entry.name.endsWith('.md') ? [path] : [];
  });
}

describe('links between pages', () => {
  it.each(pages(root).map((page) => relative(root, page)))('%s leads nowhere that is not there', (page) => {
    const text = readFileSync(join(root, page), 'utf8').replace(/```[\s\S]*?```/g, '');
    const broken = [...text.matchAll(/\]\(([^)\s]+)\)/g)]
      .map(([, target]) => (target ?? '').split('#')[0] ?? '')
      .filter((target) => target !== '' && !/^[a-z]+:/i.test(target))
      .filter((target) => !existsSync(resolve(root, dirname(page), target)));
    expect(broken).toEqual([]);
  });
});
