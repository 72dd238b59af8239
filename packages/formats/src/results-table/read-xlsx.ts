import { zipSync } from 'fflate';
import { PackageFault } from '../data-package/errors.ts';
import { unpackFiles } from '../data-package/zip.ts';
import { type ReadGrid, tableRefusals } from './errors.ts';
import { type Cell, type RichCell, sheetLimits, type TableLimits } from './grid.ts';
import { isOldSheet } from './sheet-mark.ts';

/** Parts of a spreadsheet that hold no cell; left out unread. */
const noCells = /^xl\/(media|drawings|charts|embeddings|printerSettings|externalLinks|pivot|vba)|\.bin$/i;

/**
 * Reads one sheet of an XLSX file: values of formulas as they were last computed, never the formulas; days as days; cells of a merged
 * block repeat its first one and say so.
 *
 * @param sheet its name; the first one with anything in it where left out
 */
export async function readXlsx(
  bytes: Uint8Array,
  sheet?: string,
  limits: TableLimits = sheetLimits,
): Promise<ReadGrid> {
  if (isOldSheet(bytes)) return tableRefusals.oldSheet();
  if (bytes.length > limits.bytes)
    return tableRefusals.tooLarge('too many bytes', `${limits.bytes} bytes`, `${bytes.length}`);
  let whole: Uint8Array;
  try {
    // Unpacked here within limits and packed again, so that the reader sees only what was measured.
    const files = unpackFiles(bytes, { entries: 2_000, bytes: limits.unpacked, ratio: 1100 });
    for (const name of files.keys()) if (noCells.test(name)) files.delete(name);
    const cells = cellsIn(files);
    if (cells > limits.cells)
      return tableRefusals.tooLarge('too many cells', `${limits.cells} cells`, `more than ${limits.cells}`);
    whole = zipSync(Object.fromEntries(files), { level: 0 });
  } catch (error) {
    if (error instanceof PackageFault && error.error.code === 'data-package-too-large')
      return tableRefusals.tooLarge(
        'more inside than it may have',
        `${limits.unpacked} bytes unpacked`,
        error.error.message,
      );
    return tableRefusals.damaged(error instanceof Error ? error.message : '');
  }
  // Loaded here, so that whoever reads text alone does without it.
  const { Workbook, ValueType } = (await import('exceljs')).default;
  const book = new Workbook();
  try {
    await book.xlsx.load(whole as never, { ignoreNodes: ['dataValidations', 'conditionalFormatting', 'hyperlinks'] });
  } catch (error) {
    return tableRefusals.damaged(error instanceof Error ? error.message : '');
  }
  const sheets = book.worksheets.map(({ name }) => name);
  const found =
    sheet === undefined
      ? (book.worksheets.find(({ actualRowCount }) => actualRowCount > 0) ?? book.worksheets[0])
      : book.getWorksheet(sheet);
  if (found === undefined) return sheet === undefined ? tableRefusals.empty() : tableRefusals.noSheet(sheet);
  if (found.rowCount > limits.rows)
    return tableRefusals.tooLarge('too many rows', `${limits.rows} rows`, `${found.rowCount}`);
  const rows: Cell[][] = [];
  let columns = 0;
  found.eachRow({ includeEmpty: false }, (row, number) => {
    while (rows.length < number - 1) rows.push([]);
    const cells: Cell[] = [];
    row.eachCell({ includeEmpty: false }, (cell, at) => {
      if (at > limits.columns) return;
      while (cells.length < at - 1) cells.push('');
      const merged = cell.type === ValueType.Merge;
      cells.push(cellOf(merged ? cell.master.value : cell.value, cell.numFmt ?? '', merged));
    });
    columns = Math.max(columns, cells.length);
    rows.push(cells);
  });
  if (rows.length === 0) return tableRefusals.empty();
  return { ok: true, grid: { rows, columns, sheets, sheet: found.name } };
}

/** How many cells the sheets name, without reading them. */
function cellsIn(files: ReadonlyMap<string, Uint8Array>): number {
  let count = 0;
  for (const [name, bytes] of files) {
    if (!/^xl\/worksheets\/[^/]+\.xml$/i.test(name)) continue;
    // `<c ` or `<c>`: a cell that is there.
    for (let i = bytes.indexOf(0x3c); i >= 0; i = bytes.indexOf(0x3c, i + 1)) {
      const after = bytes[i + 2];
      if (bytes[i + 1] === 0x63 && (after === 0x20 || after === 0x3e)) count++;
    }
  }
  return count;
}

function cellOf(value: unknown, format: string, merged: boolean): Cell {
  const rich = richOf(value, format);
  return merged ? { ...(typeof rich === 'string' ? { text: rich } : rich), merged: true } : rich;
}

function richOf(value: unknown, format: string): Cell {
  if (value === null || value === undefined) return '';
  if (typeof value === 'string') return value;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'number') return numberCell(value, format);
  if (value instanceof Date) return dayCell(value);
  const one = value as {
    result?: unknown;
    richText?: { text: string }[];
    text?: unknown;
    error?: string;
    formula?: string;
  };
  if (one.error !== undefined) return one.error;
  if (one.richText !== undefined) return one.richText.map(({ text }) => text).join('');
  if ('formula' in one || 'sharedFormula' in one) return richOf(one.result, format);
  return 'text' in one ? richOf(one.text, format) : '';
}

function numberCell(value: number, format: string): RichCell {
  if (!/%/.test(format)) return { text: String(value), number: value };
  const percent = Number((value * 100).toPrecision(15));
  return { text: `${percent} %`, number: percent, unit: '%' };
}

/** A day of a spreadsheet has no time zone; the reader gives it as if it were UTC. */
function dayCell(date: Date): RichCell {
  if (Number.isNaN(date.getTime())) return { text: '' };
  const rounded = new Date(Math.round(date.getTime() / 1000) * 1000).toISOString();
  const [day, time] = [rounded.slice(0, 10), rounded.slice(11, 19)];
  return time === '00:00:00' ? { text: day, day } : { text: `${day} ${time}`, day, time };
}
