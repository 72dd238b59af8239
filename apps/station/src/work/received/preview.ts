import type { ResultsMappingBody, TablePreview, TableQuestion } from '@sthene/contract';
import { exchangeFields, type Grid, suggestMapping, textOf } from '@sthene/formats/results-table';
import type { OpenLab } from '../../labs/open-lab.ts';
import { importAnswer } from './list.ts';
import { openTable } from './open-table.ts';
import { rememberedMapping } from './remember.ts';

const rowsShown = 8;
const longestCell = 200;

/** How a table that was sent is understood, before anything is decided. */
export async function previewTable(lab: OpenLab, question: TableQuestion): Promise<TablePreview> {
  const table = await openTable(lab, question.upload, question);
  const same = await Promise.all(
    (await lab.store.received.ofFile(table.file.sha256)).map((one) => importAnswer(lab, one)),
  );
  if (table.kind === 'exchange') return { ...ofExchange(table.exchange.rows.length), same };
  const { grid } = table;
  const found = suggestMapping(grid, question.header);
  const suggested = {
    ...found.mapping,
    ...(question.delimiter === undefined ? {} : { delimiter: question.delimiter }),
  };
  const kept = question.fresh ? undefined : await rememberedMapping(lab, found.signature);
  return {
    kind: 'table',
    sheets: [...grid.sheets],
    headings: found.headings.map(cut),
    rows: rowsOf(grid, found.mapping.first),
    rowCount: Math.max(0, grid.rows.length - found.mapping.first + 1),
    mapping:
      kept === undefined ? (suggested as ResultsMappingBody) : withKept(suggested as ResultsMappingBody, kept.mapping),
    questions: [...found.questions],
    metricNames: [...found.metricNames],
    testNames: [...found.testNames],
    signature: found.signature,
    ...(kept === undefined ? {} : { template: kept.name }),
    same,
  };
}

const cut = (text: string): string => (text.length > longestCell ? `${text.slice(0, longestCell - 1)}\u2026` : text);

const rowsOf = ({ rows, columns }: Grid, first: number): string[][] =>
  rows
    .slice(first - 1)
    .filter((row) => row.some((cell) => textOf(cell) !== ''))
    .slice(0, rowsShown)
    .map((row) => Array.from({ length: columns }, (_, c) => cut(textOf(row[c]))));

/** What was kept says what columns and names mean; where the rows are and how they are written, this file says. */
function withKept(found: ResultsMappingBody, kept: ResultsMappingBody): ResultsMappingBody {
  const { columns, of, metrics, units, tests } = kept;
  return {
    ...found,
    of,
    columns: columns.length === found.columns.length ? columns : found.columns,
    metrics: { ...found.metrics, ...only(metrics, found.metrics) },
    units: { ...found.units, ...only(units, found.units) },
    tests: { ...found.tests, ...only(tests, found.tests) },
  };
}

const only = (from: Record<string, string>, names: Record<string, string>): Record<string, string> =>
  Object.fromEntries(Object.entries(from).filter(([name]) => Object.hasOwn(names, name)));

function ofExchange(rowCount: number): Omit<TablePreview, 'same'> {
  return {
    kind: 'exchange',
    sheets: [],
    headings: exchangeFields.map(({ name }) => name),
    rows: [],
    rowCount,
    mapping: {
      ...{ header: 1, first: 2, decimal: '.', dayOrder: 'ymd', columns: [], of: 'trial' },
      ...{ metrics: {}, units: {}, tests: {} },
    },
    ...{ questions: [], metricNames: [], testNames: [], signature: '' },
  };
}
