import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const page = new URL('../../docs/reference/check-values.md', import.meta.url);

interface Row {
  readonly section: string;
  readonly what: string;
  readonly expected: string;
  readonly tested: string;
}

/** The rows of every table of the page: the first cell says what, the last where. */
const rows: Row[] = readFileSync(page, 'utf8')
  .split('\n## ')
  .slice(1)
  .flatMap((part) => {
    const [section = '', ...lines] = part.split('\n');
    const cells = lines
      .filter((line) => line.startsWith('|'))
      .map((line) => line.split('|').map((cell) => cell.trim()))
      .slice(2);
    return cells.map((line) => ({
      section,
      what: line[1] ?? '',
      expected: line.length > 4 ? (line[2] ?? '') : '',
      tested: line.at(-2) ?? '',
    }));
  });

const filesOf = ({ tested }: Row): string[] => [...tested.matchAll(/\]\(([^)]+)\)/g)].map(([, path]) => path as string);
const pathOf = (file: string): string => fileURLToPath(new URL(file, page));

/** Numbers as they are written in a text, without sign. */
const decimals = (text: string): string[] => [...text.matchAll(/\d+\.\d+/g)].map(([found]) => found);
const numbers = (text: string): number[] =>
  [...text.matchAll(/\d[\d_]*(?:\.\d+)?/g)].map(([n]) => Number(n.replaceAll('_', '')));

describe('the page of check values', () => {
  it('has the fifteen sections', () => {
    const sections = [...new Set(rows.map(({ section }) => section.split(' ')[0]))];
    expect(sections).toEqual(Array.from({ length: 15 }, (_, i) => `${i + 1}.`));
  });

  it('says of every row where it is tested, or why it is not', () => {
    for (const row of rows)
      if (filesOf(row).length === 0) expect(row.tested, `${row.section}: ${row.what}`).toMatch(/^not ours: .{6,}/);
  });

  it('names tests that exist', () => {
    const files = [...new Set(rows.flatMap(filesOf))];
    expect(files.length).toBeGreaterThan(15);
    for (const file of files) {
      expect(file).toMatch(/\.test\.ts$/);
      expect(existsSync(pathOf(file)), file).toBe(true);
    }
  });

  it('expects nothing that the named tests do not ask for', () => {
    for (const row of rows) {
      const files = filesOf(row);
      if (files.length === 0) continue;
      const written = files.map((file) => new Set(numbers(readFileSync(pathOf(file), 'utf8'))));
      for (const value of decimals(row.expected)) {
        const found = written.some((one) => one.has(Number(value)));
        expect(found, `${row.section}, ${row.what}: ${value} stands in ${files.join(', ')}`).toBe(true);
      }
    }
  });
});
