import type { Fact } from '../model/document.ts';
import type { Area, Element, Sheet } from './sheet.ts';
import { soft } from './text-blocks.ts';

/** Names and values in two columns, as a table without a head. */
export function drawFacts(sheet: Sheet, items: readonly Fact[], { x, width }: Area, parent: Element): void {
  const size = 8.6;
  const longest = Math.max(...items.map(({ name }) => sheet.use('plain', size).widthOfString(name))) + 1;
  const nameWidth = Math.min(width * 0.46, longest);
  const gap = sheet.pt(8);
  const valueWidth = width - nameWidth - gap;
  const table = sheet.pdf.struct('Table');
  parent.add(table);
  for (const { name, value, note } of items) {
    const said = note === undefined || note === '' ? value : `${value}, ${note}`;
    const options = { lineGap: sheet.pt(1.2) };
    const height = Math.max(
      sheet.use('plain', size).heightOfString(name, { ...options, width: nameWidth }),
      sheet.use('bold', size).heightOfString(said, { ...options, width: valueWidth }),
    );
    sheet.room(height);
    const y = sheet.y;
    const row = sheet.pdf.struct('TR');
    table.add(row);
    row.add(
      sheet.pdf.struct('TH', { scope: 'Row' } as never, () => {
        sheet
          .use('plain', size)
          .fillColor(soft)
          .text(name, x, y, { ...options, width: nameWidth });
      }),
    );
    row.add(
      sheet.pdf.struct('TD', {}, () => {
        const more = said.slice(value.length);
        const width = { ...options, width: valueWidth };
        sheet.use('bold', size).fillColor('#000000');
        sheet.pdf.text(value, x + nameWidth + gap, y, { ...width, continued: more !== '' });
        if (more !== '') sheet.use('plain', size).text(more, width);
      }),
    );
    row.end();
    sheet.y = y + height + sheet.pt(2.4);
  }
  table.end();
  sheet.y += sheet.pt(4);
}
