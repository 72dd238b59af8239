import type ExcelJS from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import type { Block, ReportDocument } from '../model/document.ts';
import { tablesOf } from '../model/document.ts';
import type { Table } from '../model/table.ts';
import { machineHead, plain } from './csv.ts';

/** The time every packed file gets: the first that ZIP can say, read as local time, so that it is the same bytes in every zone. */
const packed = () => new Date(1980, 0, 1);

/** A report as a workbook: what it says on the first sheet, each table on one of its own with bare numbers. The same bytes each time. */
export async function xlsxOf(report: ReportDocument): Promise<Uint8Array> {
  // Large, and few who start a station ask for a workbook.
  const { Workbook } = (await import('exceljs')).default;
  const book = new Workbook();
  const dated = new Date(report.dated);
  Object.assign(book, { creator: 'Sthene', lastModifiedBy: 'Sthene', created: dated, modified: dated });
  book.title = `${report.title}: ${report.subject}`;
  const about = book.addWorksheet('report');
  about.getColumn(1).width = 44;
  about.getColumn(2).width = 60;
  for (const line of [
    [report.lab.name],
    [`${report.title}: ${report.subject}`],
    ...(report.banner === undefined ? [] : [[report.banner]]),
    ...report.blocks.flatMap(said),
    [report.foot],
  ])
    about.addRow(line.map(plain));
  about.getRow(2).font = { bold: true };
  const names = new Set(['report']);
  for (const table of tablesOf(report.blocks)) addTable(book, table, freeName(table.id, names));
  const bytes = new Uint8Array((await book.xlsx.writeBuffer()) as ArrayBuffer);
  return withoutClock(bytes);
}

/** What a sheet may be called: at most 31 signs, each name once. */
function freeName(id: string, taken: Set<string>): string {
  const base = id.slice(0, 28);
  let name = base;
  for (let n = 2; taken.has(name); n++) name = `${base}-${n}`;
  taken.add(name);
  return name;
}

function said(block: Block): string[][] {
  switch (block.kind) {
    case 'heading':
    case 'paragraph':
      return [[block.text]];
    case 'statement':
      return [[block.word, block.value]];
    case 'list':
      return block.items.map((item) => [item]);
    case 'notice':
      return [[block.title], ...block.items.map((item) => [item])];
    case 'facts':
      return block.items.map(({ name, value, note }) => [name, note ? `${value}, ${note}` : value]);
    case 'figure':
      return [[block.figure.caption]];
    case 'table':
      return [];
    case 'columns':
      return block.columns.flat().flatMap(said);
  }
}

/** Text stays text: a cell of a workbook is a formula only where it is made one, so that no guard is needed here. */
function addTable(book: ExcelJS.Workbook, { columns, rows, note }: Table, name: string): void {
  const sheet = book.addWorksheet(name, { views: [{ state: 'frozen', ySplit: 1, xSplit: 1 }] });
  sheet.addRow(columns.map(machineHead)).font = { bold: true };
  for (const row of rows)
    sheet.addRow(row.map(({ text, value, machine }) => value ?? machine ?? (text === '' ? null : plain(text))));
  for (const [i, column] of columns.entries()) {
    const widest = Math.max(machineHead(column).length, ...rows.map((row) => row[i]?.text.length ?? 0));
    sheet.getColumn(i + 1).width = Math.min(60, widest + 2);
  }
  if (note !== undefined) sheet.addRow([]).worksheet.addRow([plain(note)]);
}

/** Packs again with fixed times: the library stamps each file with the clock. */
function withoutClock(bytes: Uint8Array): Uint8Array {
  const files = unzipSync(bytes);
  const sorted = Object.keys(files).sort(first);
  return zipSync(Object.fromEntries(sorted.map((name) => [name, files[name] as Uint8Array])), {
    level: 6,
    mtime: packed(),
  });
}

/** The list of content types stands first, as readers of the format like it. */
const first = (a: string, b: string): number => {
  const [x, y] = [a === '[Content_Types].xml', b === '[Content_Types].xml'];
  return x === y ? (a < b ? -1 : 1) : x ? -1 : 1;
};
