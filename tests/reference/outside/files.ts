import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Recordings made by others; they lie beside the repository and are not part of it. */
const folder = fileURLToPath(new URL('../../../../shared/data/', import.meta.url));

/** Whether a file is there; says so once where it is not, because its tests are then skipped. */
export function present(name: string): boolean {
  const there = existsSync(folder + name);
  if (!there) console.warn(`skipped: ${folder}${name} is absent`);
  return there;
}

/** Columns of numbers by heading: lines before the heading that holds `first` are left out, a byte-order mark too. */
export function columns(name: string, first: string): Record<string, Float64Array> {
  const lines = readFileSync(folder + name, 'utf8')
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .filter((line) => line !== '');
  const top = lines.findIndex((line) => line.split(',')[0] === first);
  const rows = lines.slice(top + 1).map((line) => line.split(',').map(Number));
  return Object.fromEntries(
    lines[top]!.split(',').map((heading, column) => [heading, Float64Array.from(rows, (row) => row[column]!)]),
  );
}
