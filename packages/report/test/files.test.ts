import { createHash } from 'node:crypto';
import ExcelJS from 'exceljs';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { isWholePng, pngSize } from '../src/image/png.ts';
import { csvOf, figuresOf, htmlOf, pngOf, tabbedOf, tableHtml, tablesOf, xlsxOf } from '../src/index.ts';
import { documents } from './documents.ts';

const { squad, session, athlete } = documents('de');
if (squad === undefined || session === undefined || athlete === undefined) throw new Error('reports are missing');
const [squadTable] = tablesOf(squad.blocks);
if (squadTable === undefined) throw new Error('the squad has no table');

describe('tables for machines', () => {
  it('are CSV that reads back: a point in every number, names that cannot run', () => {
    const { data, errors } = Papa.parse<Record<string, string>>(csvOf(squadTable), {
      header: true,
      skipEmptyLines: true,
    });
    expect(errors).toEqual([]);
    expect(data).toHaveLength(3);
    expect(data[0]?.['newest [N]']).toBe('3288');
    expect(data[0]?.z).toBe('1.21');
    expect(data[0]?.['difference [N]']).toBe('168');
    expect(data[0]).toMatchObject({ word: 'stronger', tested: '2026-07-15' });
    expect(data[0]?.athlete).toBe("'=SUM(A1) Bexley (FW01)");
    expect(csvOf(squadTable).split('\r\n').at(-1)).toBe('');
  });

  it('are a workbook that reads back, with bare numbers, and the same bytes each time', async () => {
    const bytes = await xlsxOf(squad);
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(bytes.buffer as ArrayBuffer);
    expect(book.worksheets.map(({ name }) => name)).toEqual(['report', 'squad']);
    const row = book.getWorksheet('squad')?.getRow(2);
    expect(row?.getCell(2).value).toBe(3288);
    // Text, not a formula: a spreadsheet shows it as it is.
    expect(row?.getCell(1).value).toBe('=SUM(A1) Bexley (FW01)');
    expect(row?.getCell(1).type).toBe(ExcelJS.ValueType.String);
    const hash = (one: Uint8Array) => createHash('sha256').update(one).digest('hex');
    await new Promise((resolve) => setTimeout(resolve, 2100));
    expect(hash(await xlsxOf(squad))).toBe(hash(bytes));
  });

  it('paste: tabs between cells, one line a row, and HTML with heads', () => {
    const table = tablesOf(session.blocks)[0];
    if (table === undefined) throw new Error('the session has no table');
    const lines = tabbedOf(table).split('\n');
    expect(lines).toHaveLength(1 + table.rows.length);
    for (const line of lines) expect(line.split('\t')).toHaveLength(table.columns.length);
    expect(lines[3]).toContain('überstimmt, zählt durch Wren');
    // A number stays a number, in the way of the language; what begins like a formula is text.
    expect(tabbedOf(squadTable).split('\n')[1]?.split('\t').slice(1, 5)).toEqual([
      '3288',
      '3',
      '1,2',
      "'+168 N (+5,4 %)",
    ]);
    const html = tableHtml(squadTable);
    expect(html.match(/<th scope="col"/g)).toHaveLength(squadTable.columns.length);
    expect(html).toContain('<th scope="row">\'=SUM(A1) Bexley (FW01)</th>');
  });
});

describe('a figure as PNG', () => {
  it('is whole, white behind, says its density, and is the same bytes each time', async () => {
    const [figure] = figuresOf(athlete.blocks);
    if (figure === undefined) throw new Error('the athlete has no figure');
    const png = await pngOf(figure);
    expect(isWholePng(png)).toBe(true);
    expect(pngSize(png)).toEqual({
      width: Math.round((figure.width * 300) / 72),
      height: Math.round((figure.height * 300) / 72),
    });
    // 300 dots per inch are 11811 in a metre.
    expect(Buffer.from(png).readUInt32BE(33 + 8)).toBe(11811);
    expect(Buffer.from(await pngOf(figure)).equals(Buffer.from(png))).toBe(true);
  });
});

describe('a report as a page to look at', () => {
  it('has no script and no address, and lets no name become markup', () => {
    const html = htmlOf({ ...athlete, subject: '<img src=x onerror=alert(1)>' });
    expect(html).not.toMatch(/<script|onerror=alert\(1\)>|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
    expect(html).toContain('&lt;img src=x');
    expect(html).toContain('<html lang="de">');
    expect(html).toContain('role="img"');
  });

  it('has figures that stand alone, with words for whoever does not see them', () => {
    for (const { svg, alt } of [...figuresOf(athlete.blocks), ...figuresOf(squad.blocks)]) {
      expect(svg.startsWith('<svg xmlns="http://www.w3.org/2000/svg"')).toBe(true);
      expect(svg).not.toMatch(/currentColor|style=|NaN|undefined/);
      expect(alt.length).toBeGreaterThan(30);
    }
  });
});
