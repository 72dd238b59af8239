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
  const captionHeight = sheet.use('plain', 7.8).heightOfString(caption, { width: area.width });
  const most = Math.min((area.width * height) / width, sheet.floor - sheet.margin - 120);
  const left = sheet.floor - sheet.y - captionHeight - sheet.pt(7);
  // Somewhat smaller on this page is better than a page that is left half empty.
  const tall = left < most && left > 0.7 * most ? left : most;
  const wide = (tall * width) / height;
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
