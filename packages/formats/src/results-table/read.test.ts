import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type Grid, readCsv, readXlsx, sheetLimits, textLimits, textOf } from './index.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const gridOf = (read: Awaited<ReturnType<typeof readXlsx>>): Grid => {
  if (!read.ok) throw new Error(`${read.error.code}: ${read.error.message}`);
  return read.grid;
};
const texts = (grid: Grid) => grid.rows.map((row) => row.map(textOf));
const codeOf = (read: Awaited<ReturnType<typeof readXlsx>>) => (read.ok ? '' : read.error.code);

describe('delimited text', () => {
  it.each([
    [',', 'a,b,"c, d"\n1,2,"say ""hi"""\n'],
    [';', 'a;b;"c, d"\n1;2;"say ""hi"""\n'],
    ['\t', 'a\tb\t"c, d"\r\n1\t2\t"say ""hi"""\r\n'],
    ['|', 'a|b|"c, d"\n1|2|"say ""hi"""\n'],
  ])('is read with %j', (delimiter, text) => {
    const grid = gridOf(readCsv(bytes(text)));
    expect(grid.delimiter).toBe(delimiter);
    expect(texts(grid)).toEqual([
      ['a', 'b', 'c, d'],
      ['1', '2', 'say "hi"'],
    ]);
  });

  it('is read in every encoding a spreadsheet saves', () => {
    const text = 'Name;Kraft\nÅlund;2\u00a0481,5\n';
    const wide = (little: boolean, mark: boolean) => {
      const out = new Uint8Array((text.length + Number(mark)) * 2);
      const view = new DataView(out.buffer);
      [...(mark ? '\ufeff' : ''), ...text].forEach((sign, i) => {
        view.setUint16(i * 2, sign.charCodeAt(0), little);
      });
      return out;
    };
    const latin = Uint8Array.from(text, (sign) => sign.charCodeAt(0));
    const want = [
      ['Name', 'Kraft'],
      ['Ålund', '2\u00a0481,5'],
    ];
    for (const one of [bytes(text), bytes(`\ufeff${text}`), latin, wide(true, true), wide(false, true)])
      expect(texts(gridOf(readCsv(one)))).toEqual(want);
    const plain = 'name;peak force\n'.repeat(9);
    const unmarked = Uint8Array.from([...plain].flatMap((sign) => [sign.charCodeAt(0), 0]));
    expect(gridOf(readCsv(unmarked)).encoding).toBe('utf-16le');
  });

  it('keeps the number of each row, also behind empty ones', () => {
    expect(texts(gridOf(readCsv(bytes('\n\na,b\n,\n1,2\n\n')))).map((row) => row.join())).toEqual([
      '',
      '',
      'a,b',
      ',',
      '1,2',
    ]);
  });

  it('is refused where it is no table', () => {
    expect(codeOf(readCsv(bytes(' \n\n')))).toBe('table-empty');
    expect(codeOf(readCsv(bytes('a,b\n1,\0\n')))).toBe('table-not-text');
    expect(codeOf(readCsv(bytes('a,b\n"1,2\n3,4\n')))).toBe('table-open-quote');
    expect(codeOf(readCsv(bytes('a,b\n1,2\n3,4\n'), {}, { ...textLimits, rows: 2 }))).toBe('table-too-large');
    expect(codeOf(readCsv(bytes('a,b\n1,2\n'), {}, { ...textLimits, columns: 1 }))).toBe('table-too-large');
    expect(codeOf(readCsv(bytes('a,b\n1,2\n'), {}, { ...textLimits, cells: 3 }))).toBe('table-too-large');
    expect(codeOf(readCsv(bytes('a,b\n'), {}, { ...textLimits, bytes: 3 }))).toBe('table-too-large');
  });
});

/** A spreadsheet by hand, after ECMA-376 part 1 (SpreadsheetML): what this reader must make of it does not come from a library. */
function workbook(sheetData: string, more = '', shared: readonly string[] = []): Uint8Array {
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
  const relations = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
  const type = (part: string, kind: string) =>
    `<Override PartName="${part}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${kind}+xml"/>`;
  return zipSync({
    '[Content_Types].xml': strToU8(
      `${head}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>${type('/xl/workbook.xml', 'sheet.main')}${type('/xl/worksheets/sheet1.xml', 'worksheet')}${type('/xl/styles.xml', 'styles')}${type('/xl/sharedStrings.xml', 'sharedStrings')}</Types>`,
    ),
    '_rels/.rels': strToU8(
      `${head}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="${relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    'xl/workbook.xml': strToU8(
      `${head}<workbook xmlns="${main}" xmlns:r="${relations}"><sheets><sheet name="Tests 2019" sheetId="1" r:id="r1"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      `${head}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="${relations}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="r2" Type="${relations}/styles" Target="styles.xml"/><Relationship Id="r3" Type="${relations}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
    ),
    'xl/styles.xml': strToU8(
      `${head}<styleSheet xmlns="${main}"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/><xf numFmtId="9" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    ),
    'xl/sharedStrings.xml': strToU8(
      `${head}<sst xmlns="${main}">${shared.map((text) => `<si><t>${text}</t></si>`).join('')}</sst>`,
    ),
    'xl/worksheets/sheet1.xml': strToU8(
      `${head}<worksheet xmlns="${main}"><sheetData>${sheetData}</sheetData>${more}</worksheet>`,
    ),
  });
}

describe('a spreadsheet', () => {
  const sheet = workbook(
    '<row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2" t="s"><v>1</v></c><c r="C2" t="inlineStr"><is><t>Share</t></is></c></row>' +
      // 43525 is 2019-03-01 in the 1900 system: ECMA-376 part 1, 18.17.4.1; format 14 is a date, 9 is a whole percent (18.8.30).
      '<row r="3"><c r="A3" s="1"><v>43525</v></c><c r="B3"><f>1240.5*2</f><v>2481</v></c><c r="C3" s="2"><v>0.12</v></c></row>' +
      '<row r="5"><c r="A5" s="1"><v>43526.5</v></c><c r="B5" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="C5"><v>7</v></c><c r="D5"/></row>',
    '<mergeCells count="1"><mergeCell ref="C5:D5"/></mergeCells>',
    ['Day', 'Peak force (N)'],
  );

  it('gives days, numbers, results of formulas and percent, each in its row', async () => {
    const grid = gridOf(await readXlsx(sheet));
    expect(grid.sheets).toEqual(['Tests 2019']);
    expect(grid.rows.map((row) => row.length)).toEqual([0, 3, 3, 0, 4]);
    expect(texts(grid)[1]).toEqual(['Day', 'Peak force (N)', 'Share']);
    expect(grid.rows[2]).toEqual([
      { text: '2019-03-01', day: '2019-03-01' },
      { text: '2481', number: 2481 },
      { text: '12 %', number: 12, unit: '%' },
    ]);
    expect(grid.rows[4]?.[0]).toEqual({ text: '2019-03-02 12:00:00', day: '2019-03-02', time: '12:00:00' });
    expect(textOf(grid.rows[4]?.[1])).toBe('#DIV/0!');
    expect(grid.rows[4]?.[3]).toMatchObject({ text: '7', merged: true });
  });

  it('is refused when it is old, broken, bombed or without the sheet asked for', async () => {
    expect(codeOf(await readXlsx(Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1)))).toBe('table-old-spreadsheet');
    expect(codeOf(await readXlsx(sheet.subarray(0, 400)))).toBe('table-damaged');
    expect(codeOf(await readXlsx(zipSync({ 'letter.txt': strToU8('Dear coach') })))).toMatch(/^table-(damaged|empty)$/);
    expect(codeOf(await readXlsx(sheet, 'Other'))).toBe('table-no-such-sheet');
    const bomb = zipSync({ 'xl/worksheets/sheet1.xml': new Uint8Array(3_000_000) });
    expect(bomb.length).toBeLessThan(10_000);
    expect(codeOf(await readXlsx(bomb, undefined, { ...sheetLimits, unpacked: 1_000_000 }))).toBe('table-too-large');
    expect(codeOf(await readXlsx(sheet, undefined, { ...sheetLimits, cells: 5 }))).toBe('table-too-large');
    expect(codeOf(await readXlsx(sheet, undefined, { ...sheetLimits, rows: 4 }))).toBe('table-too-large');
  });
});
