import SvgToPdf from 'svg-to-pdfkit';
import type { Block, Fact } from '../model/document.ts';
import type { Figure } from '../model/figure.ts';
import type { Area, Element, Sheet } from './sheet.ts';
import { drawTable } from './table.ts';

const styles = { lead: 11.5, plain: 9.5, small: 7.8 } as const;
const soft = '#4a4a4a';

/** Draws blocks one below the other; the sheet turns its pages. */
export function drawBlocks(sheet: Sheet, blocks: readonly Block[], area: Area, parent: Element): void {
  for (const [i, block] of blocks.entries()) drawBlock(sheet, block, blocks[i + 1], area, parent);
}

function drawBlock(sheet: Sheet, block: Block, next: Block | undefined, area: Area, parent: Element): void {
  switch (block.kind) {
    case 'heading':
      return drawHeading(sheet, block.text, next, area, parent);
    case 'paragraph': {
      const size = styles[block.style ?? 'plain'];
      const colour = block.style === 'small' ? soft : '#000000';
      drawText(sheet, 'P', block.text, { size, colour, after: block.style === 'small' ? 2.5 : 5 }, area, parent, block.language);
      return;
    }
    case 'statement':
      return drawStatement(sheet, block, area, parent);
    case 'list':
      return drawList(sheet, block.items, block.ordered, area, parent, block.language);
    case 'notice':
      return drawNotice(sheet, block.title, block.items, area, parent);
    case 'facts':
      return drawFacts(sheet, block.items, area, parent);
    case 'figure':
      return drawFigure(sheet, block.figure, area, parent);
    case 'table':
      return drawTable(sheet, block.table, area, parent);
    case 'columns':
      return drawColumns(sheet, block, area, parent);
  }
}

interface TextStyle {
  readonly size: number;
  readonly bold?: boolean;
  readonly colour?: string;
  readonly after: number;
}

function drawText(
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
      sheet.use(bold ? 'bold' : 'plain', size).fillColor(colour).text(text, x, y, options);
    }),
  );
  sheet.y = y + height + sheet.pt(after);
}

function drawHeading(sheet: Sheet, text: string, next: Block | undefined, area: Area, parent: Element): void {
  // A heading never stands alone at the foot of a page.
  const following = next?.kind === 'figure' ? (next.figure.height * area.width) / next.figure.width : 40;
  sheet.y += sheet.pt(5);
  sheet.room(sheet.pt(18 + following));
  drawText(sheet, 'H2', text, { size: 10.5, bold: true, after: 3 }, area, parent);
}

function drawStatement(
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
      sheet.use('bold', fit).fillColor('#000000').text(said, x, y + lower, { width: wordWidth, lineBreak: false });
      sheet.use('bold', size).text(value, x + width - valueWidth, y, { width: valueWidth, align: 'right', lineBreak: false });
    }),
  );
  sheet.y = y + sheet.pt(size * 1.32);
  sheet.rule(x, sheet.y, width, 1.4);
  sheet.y += sheet.pt(7);
}

function drawList(
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
        sheet.use('plain', size).fillColor('#000000').text(ordered ? `${i + 1}.` : '\u2022', x, y, { lineBreak: false });
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

function drawNotice(sheet: Sheet, title: string, items: readonly string[], area: Area, parent: Element): void {
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

/** Names and values in two columns, as a table without a head. */
function drawFacts(sheet: Sheet, items: readonly Fact[], { x, width }: Area, parent: Element): void {
  const size = 8.6;
  const nameWidth = width * 0.46;
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
        sheet.use('plain', size).fillColor(soft).text(name, x, y, { ...options, width: nameWidth });
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

function drawFigure(sheet: Sheet, { svg, alt, caption, width, height }: Figure, area: Area, parent: Element): void {
  const tall = Math.min((area.width * height) / width, sheet.floor - sheet.margin - 120);
  const wide = (tall * width) / height;
  const captionHeight = sheet.use('plain', 7.8).heightOfString(caption, { width: area.width });
  sheet.room(tall + captionHeight + sheet.pt(6));
  const y = sheet.y;
  parent.add(
    sheet.pdf.struct('Figure', { alt, bbox: [area.x, y, area.x + wide, y + tall] } as never, () => {
      SvgToPdf(sheet.pdf, svg, area.x, y, {
        width: wide,
        height: tall,
        assumePt: true,
        preserveAspectRatio: 'xMinYMin meet',
        fontCallback: (_family, bold) => (bold ? 'bold' : 'plain'),
      });
    }),
  );
  sheet.y = y + tall + sheet.pt(2);
  drawText(sheet, 'Caption', caption, { size: 7.8, colour: soft, after: 5 }, area, parent);
}

/** Side by side from one height on; the tallest says where it goes on below. */
function drawColumns(
  sheet: Sheet,
  { columns, shares }: Extract<Block, { kind: 'columns' }>,
  { x, width }: Area,
  parent: Element,
): void {
  const gap = sheet.pt(16);
  const usable = width - gap * (columns.length - 1);
  const top = sheet.y;
  let left = x;
  let deepest = top;
  for (const [i, blocks] of columns.entries()) {
    const own = usable * (shares[i] ?? 1 / columns.length);
    sheet.y = top;
    drawBlocks(sheet, blocks, { x: left, width: own }, parent);
    deepest = Math.max(deepest, sheet.y);
    left += own + gap;
  }
  sheet.y = deepest;
}
