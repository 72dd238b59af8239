import type { Cell, Table } from '../model/table.ts';
import { columnWidths } from './column-widths.ts';
import type { Area, Element, Sheet } from './sheet.ts';

const size = 8;
const pad = 3;

/** A table with its head again on every page; the first column names the row. */
export function drawTable(sheet: Sheet, table: Table, area: Area, parent: Element): void {
  const gap = sheet.pt(7);
  const measure = (said: string, bold: boolean) => sheet.use(bold ? 'bold' : 'plain', size).widthOfString(said);
  const widths = columnWidths(table, area.width - gap * (table.columns.length - 1), measure);
  const lefts = widths.map((_, i) => area.x + widths.slice(0, i).reduce((sum, one) => sum + one + gap, 0));
  const lineGap = sheet.pt(1);
  const heightOf = (said: readonly string[], bold: boolean) =>
    Math.max(
      ...said.map((one, i) =>
        sheet.use(bold ? 'bold' : 'plain', size).heightOfString(one || ' ', { width: widths[i] as number, lineGap }),
      ),
    ) + sheet.pt(pad);
  const put = (said: string, i: number, y: number, bold: boolean) => {
    sheet
      .use(bold ? 'bold' : 'plain', size)
      .fillColor('#000000')
      .text(said, lefts[i] as number, y, {
        width: widths[i] as number,
        align: table.columns[i]?.align ?? 'left',
        lineGap,
      });
  };
  const titles = table.columns.map(({ title }) => title);
  const headHeight = heightOf(titles, true);
  const element = sheet.pdf.struct('Table', { title: table.title });
  parent.add(element);
  /** Tagged once; on later pages it is there for the eye alone. */
  const head = (tagged: boolean) => {
    const y = sheet.y;
    if (tagged) {
      const row = sheet.pdf.struct('TR');
      element.add(row);
      for (const [i, title] of titles.entries())
        row.add(sheet.pdf.struct('TH', { scope: 'Column' } as never, () => put(title, i, y, true)));
      row.end();
    } else
      sheet.artifact(() => {
        for (const [i, title] of titles.entries()) put(title, i, y, true);
      });
    sheet.y = y + headHeight;
    sheet.rule(area.x, sheet.y - sheet.pt(1), area.width, 0.9);
    sheet.y += sheet.pt(2);
  };
  const rowHeight = (cells: readonly Cell[]) =>
    heightOf(
      cells.map(({ text }) => text),
      false,
    );
  sheet.room(headHeight + rowHeight(table.rows[0] ?? []) + sheet.pt(4));
  head(true);
  for (const cells of table.rows) {
    const height = rowHeight(cells);
    if (sheet.room(height)) head(false);
    const y = sheet.y;
    const row = sheet.pdf.struct('TR');
    element.add(row);
    for (const [i, { text }] of cells.entries())
      row.add(
        sheet.pdf.struct(i === 0 ? 'TH' : 'TD', (i === 0 ? { scope: 'Row' } : {}) as never, () => {
          if (text !== '') put(text, i, y, false);
        }),
      );
    row.end();
    sheet.y = y + height;
    sheet.rule(area.x, sheet.y - sheet.pt(1), area.width, 0.3, '#a8a8a8');
    sheet.y += sheet.pt(1.4);
  }
  element.end();
  if (table.note !== undefined) note(sheet, table.note, area, parent);
  sheet.y += sheet.pt(5);
}

function note(sheet: Sheet, said: string, { x, width }: Area, parent: Element): void {
  const height = sheet.use('plain', 7.4).heightOfString(said, { width });
  sheet.room(height);
  const y = sheet.y + sheet.pt(1.5);
  parent.add(
    sheet.pdf.struct('P', {}, () => {
      sheet.use('plain', 7.4).fillColor('#4a4a4a').text(said, x, y, { width });
    }),
  );
  sheet.y = y + height;
}
