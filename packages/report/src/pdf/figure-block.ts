import SvgToPdf from 'svg-to-pdfkit';
import type { Figure } from '../model/figure.ts';
import type { Area, Element, Sheet } from './sheet.ts';
import { drawText, soft } from './text-blocks.ts';

/** Draws a figure of SVG with its words for whoever does not see it, and its caption. */
export function drawFigure(
  sheet: Sheet,
  { svg, alt, caption, width, height }: Figure,
  area: Area,
  parent: Element,
): void {
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
