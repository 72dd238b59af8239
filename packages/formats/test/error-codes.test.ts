import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { textErrors, textNotices } from '../src/text/index.ts';

const root = resolve(import.meta.dirname, '../../..');
const page = readFileSync(resolve(root, 'docs/reference/errors-formats.md'), 'utf8');

/** Codes in the first column of the table below a heading. */
function listed(heading: string): string[] {
  const section = page.split(/^## /m).find((part) => part.startsWith(`${heading}\n`)) ?? '';
  const rows = section.split('\n').filter((line) => line.startsWith('| `'));
  return rows.flatMap((row) => Array.from(row.split('|')[1]!.matchAll(/`([a-z0-9-]+)`/g), (match) => match[1]!));
}

/** Text of every source of a format, tests left out. */
function sources(format: string): string {
  const folder = resolve(root, 'packages/formats/src', format);
  const files = readdirSync(folder).filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'));
  return files.map((name) => readFileSync(resolve(folder, name), 'utf8')).join('\n');
}

describe('codes in the program and on the page', () => {
  it('are the same for the refusals and notices of text', () => {
    expect(listed('Text: refused').sort()).toEqual(Object.keys(textErrors).sort());
    expect(listed('Text: read, with a notice').sort()).toEqual([...textNotices].sort());
  });

  it('are all used by the text format', () => {
    const code = sources('text');
    for (const name of [...Object.keys(textErrors), ...textNotices]) {
      // Once in its list and at least once where it is said.
      expect(code.split(`'${name}'`).length - 1, name).toBeGreaterThanOrEqual(2);
    }
  });

  it.each([
    ['c3d', 'C3D: refused'],
    ['parquet', 'Parquet: refused'],
  ])('are the same for the refusals of %s', (format, heading) => {
    const list = resolve(root, 'packages/formats/src', format, 'errors.ts');
    expect(existsSync(list)).toBe(true);
    const union = /ErrorCode =\s*((?:\|\s*'[a-z0-9-]+'\s*)+);/.exec(readFileSync(list, 'utf8'))?.[1] ?? '';
    const codes = Array.from(union.matchAll(/'([a-z0-9-]+)'/g), (match) => match[1]!);
    expect(codes.length).toBeGreaterThan(3);
    expect(listed(heading).sort()).toEqual(codes.sort());
  });
});
