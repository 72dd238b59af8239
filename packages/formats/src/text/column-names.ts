import type { FormatError } from '../format-error.ts';
import { quoteFound, textError } from './errors.ts';
import { parseHeaderCell } from './header-cell.ts';

/** 0-based index of a column named by name, header cell or 1-based number. */
export function columnOf(
  key: string | number,
  names: readonly string[],
  headers: readonly string[],
): number | undefined {
  const text = String(key).trim().toLowerCase();
  for (const list of [names, headers, headers.map((header) => parseHeaderCell(header).name)]) {
    const index = typeof key === 'number' ? -1 : list.findIndex((name) => name.toLowerCase() === text);
    if (index >= 0) return index;
  }
  const number = Number(text);
  return Number.isInteger(number) && number >= 1 && number <= names.length ? number - 1 : undefined;
}

export function unknownColumn(key: string, names: readonly string[]): FormatError {
  return textError('text-column-unknown', `There is no column "${quoteFound(key)}".`, {
    expected: names.slice(0, 12).map(quoteFound).join(', ') + (names.length > 12 ? ', ...' : ''),
    found: quoteFound(key),
  });
}

export function badOption(name: string, found: unknown, expected: string): FormatError {
  return textError('text-option-invalid', `The option ${name} cannot be "${quoteFound(String(found))}".`, {
    expected,
    found: quoteFound(String(found)),
  });
}

/** Outer blanks removed; a repeated name gets ` (2)`, ` (3)`. */
export function uniqueNames(names: readonly string[]): string[] {
  const used = new Set<string>();
  const counts = new Map<string, number>();
  return names.map((name) => {
    let unique = name;
    let n = counts.get(name) ?? 1;
    while (used.has(unique)) unique = `${name} (${++n})`;
    counts.set(name, n);
    used.add(unique);
    return unique;
  });
}
