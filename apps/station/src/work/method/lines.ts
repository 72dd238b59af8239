import { mostLines, type NearestRequest } from '@sthene/contract';
import { conversionFactor, metricRegistry, parseUnit } from '@sthene/core';
import Papa from 'papaparse';
import { ProblemError } from '../../server/problem-error.ts';

/** One line of a table from elsewhere: which trial it speaks of, and its values by metric, in the metric's unit. */
export interface TableLine {
  /** As a spreadsheet counts it. */
  readonly line: number;
  readonly cells: Readonly<Record<string, string>>;
  readonly values: ReadonlyMap<string, number>;
  /** Cells that are no number, in words. */
  readonly faults: readonly string[];
}

const wrong = (code: string, detail: string, next: string) => new ProblemError(422, code, detail, next);

/** Reads a table of another lab's values. Empty cells are missing values; a decimal comma is read as one. */
export function linesOf({ text, values }: NearestRequest): TableLine[] {
  const parsed = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/u, ''), {
    header: true,
    skipEmptyLines: 'greedy',
    transformHeader: (name) => name.trim(),
  });
  const columns = parsed.meta.fields ?? [];
  if (parsed.data.length === 0 || columns.length < 2)
    throw wrong('table-empty', 'This holds no table.', 'Paste a line of headings, then a line for each trial.');
  if (parsed.data.length > mostLines)
    throw wrong(
      'table-too-long',
      `The table has ${parsed.data.length} lines; ${mostLines} are looked at.`,
      'Take a part of it: a few sessions of several athletes say as much.',
    );
  const wanted = values.map((one) => {
    if (!columns.includes(one.column))
      throw wrong('table-column', `There is no column "${one.column}".`, `Choose one of: ${columns.join(', ')}.`);
    return { ...one, factor: factorOf(one) };
  });
  return parsed.data.map((cells, i) => {
    const found = new Map<string, number>();
    const faults: string[] = [];
    for (const { column, metric, factor } of wanted) {
      const value = numberOf(cells[column] ?? '');
      if (value === undefined) faults.push(`"${(cells[column] ?? '').trim()}" in column "${column}" is no number`);
      else if (value !== null) found.set(metric, value * factor);
    }
    return { line: i + 2, cells, values: found, faults };
  });
}

/** From the unit the table is in to the metric's own. */
function factorOf({ metric, unit }: NearestRequest['values'][number]): number {
  const definition = metricRegistry.get(metric);
  if (definition === undefined)
    throw wrong('metric-unknown', `There is no metric "${metric}".`, 'Choose one of the list.');
  if (unit === undefined || unit === definition.unit) return 1;
  const known = parseUnit(unit);
  try {
    if (known !== undefined) return conversionFactor(known.code, definition.unit);
  } catch {
    // two dimensions: told below, as an unknown unit is
  }
  throw wrong(
    'unit-unknown',
    `"${unit}" cannot become ${definition.unit}, the unit of ${definition.title}.`,
    'Name the unit the table is in.',
  );
}

const missing = new Set(['', 'na', 'nan', 'n/a', '-', '.']);

function numberOf(cell: string): number | null | undefined {
  const text = cell.trim();
  if (missing.has(text.toLowerCase())) return null;
  const plain = /^[+-]?\d+,\d+$/u.test(text) ? text.replace(',', '.') : text;
  return /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/u.test(plain) ? Number(plain) : undefined;
}
