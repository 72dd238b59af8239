import { metricFacts, parseUnit, protocolRegistry } from '@sthene/core';
import { parseHeaderCell } from '../text/header-cell.ts';
import { type DayOrder, dayOrders } from './days.ts';
import { type Cell, type Grid, textOf } from './grid.ts';
import type { ColumnRole, ResultsMapping } from './mapping.ts';
import { metricNamed } from './metric-names.ts';
import { decimalOf } from './numbers.ts';
import { plainWords } from './plain-words.ts';
import { roleOfHeading } from './roles.ts';

/** A mapping that is proposed, with what only a person can answer. */
export interface Suggestion {
  readonly mapping: ResultsMapping;
  /** Headings as written, one for each column. */
  readonly headings: readonly string[];
  /** Both orders of a day fit, or a comma may be a decimal sign or not. */
  readonly questions: readonly ('day-order' | 'decimal')[];
  /** Metric names of a long table, test names, in the order they come. */
  readonly metricNames: readonly string[];
  readonly testNames: readonly string[];
  /** Stable name of the headings; '' without any. */
  readonly signature: string;
}

const looked = 2_000;
const mostNames = 300;

/**
 * Proposes how a table is to be understood: headings, columns by their names and units, decimal sign, order of days.
 *
 * @param header 1-based row of the headings where a person named it, 0 for none
 */
export function suggestMapping(grid: Grid, header?: number): Suggestion {
  const at = header ?? headerRow(grid);
  const headings = Array.from({ length: grid.columns }, (_, c) => (at === 0 ? '' : textOf(grid.rows[at - 1]?.[c])));
  const beneath = at === 0 ? undefined : grid.rows[at];
  const units = beneath !== undefined && isUnitRow(beneath) ? beneath : undefined;
  const first = at === 0 ? 1 : at + (units === undefined ? 1 : 2);
  const body = grid.rows.slice(first - 1, first - 1 + looked);
  const column = (c: number) => body.map((row) => textOf(row[c]));
  const columns = onceEach(headings.map((heading, c) => roleOfHeading(heading, textOf(units?.[c])).role)).map(withUnit);
  const numeric = columns.flatMap(({ as }, c) => (as === 'values' || as === 'value' ? [c] : []));
  const { decimal, sure } = decimalOf(
    numeric.flatMap((c) => body.flatMap((row) => numberText(row[c]))),
    grid.delimiter,
  );
  const dayColumns = columns.flatMap(({ as }, c) => (as === 'date' || as === 'birth-date' ? [c] : []));
  const orders = dayOrders(dayColumns.flatMap((c) => body.flatMap((row) => dayText(row[c]))));
  const place = (as: string) => columns.findIndex((one) => one.as === as);
  const named = (c: number) => (c < 0 ? [] : [...new Set(column(c).filter((text) => text !== ''))].slice(0, mostNames));
  const metricNames = named(place('metric'));
  const testNames = named(place('test'));
  const found = metricNames.map((name) => {
    const { name: bare, unit } = parseHeaderCell(name);
    const metric = metricFacts.get(name)?.id ?? metricNamed(bare, unit) ?? '';
    return { name, metric, unit: unit !== '' ? unit : (metricFacts.get(metric)?.unit ?? '') };
  });
  return {
    mapping: {
      ...(grid.sheet === undefined ? {} : { sheet: grid.sheet }),
      ...(grid.delimiter === undefined ? {} : { delimiter: grid.delimiter }),
      header: at,
      first,
      decimal,
      dayOrder: orders[0] ?? 'ymd',
      columns,
      of: place('trial') >= 0 ? 'trial' : 'unknown',
      metrics: Object.fromEntries(found.map(({ name, metric }) => [name, metric])),
      units: Object.fromEntries(found.map(({ name, unit }) => [name, unit])),
      tests: Object.fromEntries(testNames.map((name) => [name, testNamed(name)])),
    },
    headings,
    questions: [...(orders.length > 1 ? (['day-order'] as const) : []), ...(sure ? [] : (['decimal'] as const))],
    metricNames,
    testNames,
    signature: at === 0 ? '' : `results:${headings.map(plainWords).join('|')}`.slice(0, 200),
  };
}

/** Which row has the headings: among the first thirty the one that names most, and names something; 0 when none does. */
function headerRow({ rows }: Grid): number {
  let best = { row: 0, score: 0 };
  for (let r = 0; r < Math.min(rows.length, 30); r++) {
    const texts = (rows[r] ?? []).map(textOf).filter((text) => text !== '');
    if (texts.length === 0 || texts.some((text) => text.length > 200)) continue;
    const named = texts.filter((text) => roleOfHeading(text).role.as !== 'ignore').length;
    const words = texts.filter((text) => !/^[+-]?[\d.,:/\s-]+$/.test(text)).length;
    if (named === 0 || words < texts.length / 2) continue;
    const score = named + words / 1000;
    if (score > best.score) best = { row: r + 1, score };
  }
  return best.row;
}

/** A row of nothing but units: `N`, `N/s`, `kg`. */
function isUnitRow(row: readonly Cell[]): boolean {
  const texts = row.map(textOf).filter((text) => text !== '' && text !== '-');
  return texts.length > 0 && texts.every((text) => parseUnit(text) !== undefined);
}

/** A role that may stand once stays with its first column. */
function onceEach(roles: readonly ColumnRole[]): ColumnRole[] {
  const seen = new Set<string>();
  return roles.map((role) => {
    if (role.as === 'ignore' || role.as === 'values') return role;
    if (seen.has(role.as)) return { as: 'ignore' };
    seen.add(role.as);
    return role;
  });
}

/** A column without a unit of its own is proposed in the metric's. */
const withUnit = (role: ColumnRole): ColumnRole =>
  role.as === 'values' && role.unit === '' ? { ...role, unit: metricFacts.get(role.metric)?.unit ?? '' } : role;

/** Texts that need a decimal sign to be read; numbers of a spreadsheet do not. */
const numberText = (cell: Cell | undefined): string[] =>
  typeof cell === 'string' || cell?.number === undefined ? [textOf(cell)] : [];

const dayText = (cell: Cell | undefined): string[] =>
  typeof cell === 'string' || (cell?.day === undefined && cell?.number === undefined) ? [textOf(cell)] : [];

/** Which of our tests a name means; '' for none. */
export function testNamed(name: string): string {
  const words = plainWords(name);
  if (/^(isometric )?mid ?thigh pull$|^imtp$/.test(words)) return 'imtp';
  if (/^(isometric|iso) squat$/.test(words)) return 'isometric-squat';
  return (
    protocolRegistry.all.find(({ id, title }) => plainWords(id) === words || plainWords(title) === words)?.id ?? ''
  );
}

export type { DayOrder };
