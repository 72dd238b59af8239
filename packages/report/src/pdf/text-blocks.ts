import type { Block } from '../model/document.ts';
import type { Area, Element, Sheet } from './sheet.ts';

/** Of what is said beside the matter; dark enough for any copier. */
export const soft = '#4a4a4a';

interface TextStyle {
  readonly size: number;
  readonly bold?: boolean;
  readonly colour?: string;
  readonly after: number;
}

export function drawText(
  sheet: Sheet,
  tag: string,
  text: string,
  { size, bold, colour = '#000000', after }: TextStyle,
  { x, width }: Area,
  parent: Element,
  language?: string,
): void {
  const pdf = sheet.use(bold ? 'bold' : 'plain', size);
  const options = { width, lineGap: sheet.pt(size * 0.18) };
  const height = pdf.heightOfString(text, options);
  sheet.room(height);
  const y = sheet.y;
  parent.add(
    sheet.pdf.struct(tag, language === undefined ? {} : { lang: language }, () => {
      sheet
        .use(bold ? 'bold' : 'plain', size)
        .fillColor(colour)
        .text(text, x, y, options);
    }),
  );
  sheet.y = y + height + sheet.pt(after);
}

export function drawHeading(sheet: Sheet, text: string, next: Block | undefined, area: Area, parent: Element): void {
  // A heading never stands alone at the foot of a page.
  const following = next?.kind === 'figure' ? (next.figure.height * area.width) / next.figure.width : 40;
  sheet.y += sheet.pt(5);
  sheet.room(sheet.pt(18 + following));
  drawText(sheet, 'H2', text, { size: 10.5, bold: true, after: 3 }, area, parent);
}

export function drawStatement(
  sheet: Sheet,
  { mark, word, value }: Extract<Block, { kind: 'statement' }>,
  { x, width }: Area,
  parent: Element,
): void {
  const size = 23;
  const valueWidth = Math.min(width * 0.45, sheet.use('bold', size).widthOfString(value) + 4);
  const wordWidth = width - valueWidth - 12;
  const said = `${mark}\u2002${word}`;
  let fit = size;
  while (fit > 13 && sheet.use('bold', fit).widthOfString(said) > wordWidth) fit -= 0.5;
  sheet.room(sheet.pt(size + 12));
  const y = sheet.y + sheet.pt(3);
  const lower = sheet.pt((size - fit) * 0.9);
  parent.add(
    sheet.pdf.struct('P', {}, () => {
      sheet
        .use('bold', fit)
        .fillColor('#000000')
        .text(said, x, y + lower, { width: wordWidth, lineBreak: false });
      sheet
        .use('bold', size)
        .text(value, x + width - valueWidth, y, { width: valueWidth, align: 'right', lineBreak: false });
    }),
  );
  sheet.y = y + sheet.pt(size * 1.32);
  sheet.rule(x, sheet.y, width, 1.4);
  sheet.y += sheet.pt(7);
}

export function drawList(
  sheet: Sheet,
  items: readonly string[],
  ordered: boolean,
  { x, width }: Area,
  parent: Element,
  language?: string,
): void {
  const size = 8.8;
  const indent = sheet.pt(ordered && items.length > 9 ? 18 : 13);
  const options = { width: width - indent, lineGap: sheet.pt(size * 0.16) };
  const list = sheet.pdf.struct('L', language === undefined ? {} : { lang: language });
  parent.add(list);
  for (const [i, item] of items.entries()) {
    const height = sheet.use('plain', size).heightOfString(item, options);
    sheet.room(height);
    const y = sheet.y;
    const entry = sheet.pdf.struct('LI');
    list.add(entry);
    entry.add(
      sheet.pdf.struct('Lbl', {}, () => {
        sheet
          .use('plain', size)
          .fillColor('#000000')
          .text(ordered ? `${i + 1}.` : '\u2022', x, y, { lineBreak: false });
      }),
    );
    entry.add(
      sheet.pdf.struct('LBody', {}, () => {
        sheet.use('plain', size).text(item, x + indent, y, options);
      }),
    );
    entry.end();
    sheet.y = y + height + sheet.pt(2);
  }
  list.end();
  sheet.y += sheet.pt(3);
}

export function drawNotice(sheet: Sheet, title: string, items: readonly string[], area: Area, parent: Element): void {
  const pad = sheet.pt(7);
  const inner = { x: area.x + pad, width: area.width - 2 * pad };
  const lines = items.map((item) => ({
    item,
    height: sheet.use('bold', 11.5).heightOfString(item, { width: inner.width, lineGap: sheet.pt(2) }),
  }));
  const titleHeight = sheet.use('plain', 8.5).heightOfString(title, { width: inner.width });
  const height = lines.reduce((sum, one) => sum + one.height + sheet.pt(2), titleHeight + 2 * pad + sheet.pt(2));
  sheet.room(height);
  const top = sheet.y;
  sheet.artifact(() => {
    sheet.pdf.save().rect(area.x, top, area.width, height).lineWidth(1.2).strokeColor('#1b1b1b').stroke().restore();
  });
  sheet.y = top + pad;
  drawText(sheet, 'P', title, { size: 8.5, colour: soft, after: 2 }, inner, parent);
  for (const { item } of lines) drawText(sheet, 'P', item, { size: 11.5, bold: true, after: 2 }, inner, parent);
  sheet.y = top + height + sheet.pt(6);
}
