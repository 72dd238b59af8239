import type { ReportDocument } from '../model/document.ts';
import type { Paper } from '../model/paper.ts';
import { catalogue } from '../words/index.ts';
import { drawBlocks } from './blocks.ts';
import { type Element, Sheet } from './sheet.ts';

/** Type sizes that are tried until a report of one page is one. */
const scales = [1, 0.94, 0.88, 0.82, 0.76, 0.7] as const;

/** A report as a tagged PDF 1.7. The same report on the same paper is the same bytes. */
export async function pdfOf(report: ReportDocument, paper: Paper): Promise<Uint8Array> {
  for (const scale of report.onePage ? scales : [1]) {
    const sheet = drawn(report, paper, scale);
    if (!report.onePage || sheet.pages === 1 || scale === scales.at(-1)) {
      feet(sheet, report);
      return sheet.finish();
    }
  }
  throw new Error('unreachable: the last scale is always taken');
}

function drawn(report: ReportDocument, paper: Paper, scale: number): Sheet {
  const sheet = new Sheet(report, paper, scale);
  let first = true;
  sheet.begin(() => {
    if (!first) return running(sheet, report);
    first = false;
    return letterhead(sheet, report, sheet.root);
  });
  drawBlocks(sheet, report.blocks, sheet.area, sheet.root);
  return sheet;
}

/** Logo and name of the lab, then what this is and about whom. */
function letterhead(sheet: Sheet, { lab, title, subject, banner }: ReportDocument, root: Element): number {
  const { x, width } = sheet.area;
  const top = sheet.margin - 10;
  let text = x;
  if (lab.logo !== undefined) {
    const tall = sheet.pt(30);
    const wide = Math.min((tall * lab.logo.width) / lab.logo.height, width * 0.4);
    root.add(
      sheet.pdf.struct('Figure', { alt: lab.name, bbox: [x, top, x + wide, top + tall] } as never, () => {
        sheet.pdf.image(Buffer.from(lab.logo?.bytes ?? []), x, top, { fit: [wide, tall], valign: 'center' });
      }),
    );
    text = x + wide + sheet.pt(10);
  }
  const middle = top + sheet.pt(lab.logo === undefined ? 2 : 9);
  root.add(
    sheet.pdf.struct('P', {}, () => {
      sheet
        .use('plain', 9)
        .fillColor('#000000')
        .text(lab.name, text, middle, { width: x + width - text, lineBreak: false });
      if (banner !== undefined)
        sheet.use('bold', 8).text(banner, x, middle, { width, align: 'right', lineBreak: false });
    }),
  );
  const under = top + sheet.pt(lab.logo === undefined ? 18 : 36);
  sheet.rule(x, under, width, 0.6);
  const y = under + sheet.pt(8);
  root.add(
    sheet.pdf.struct('H1', {}, () => {
      sheet.use('plain', 9.5).fillColor('#4a4a4a').text(title, x, y, { width, lineBreak: false });
      sheet
        .use('bold', 16)
        .fillColor('#000000')
        .text(subject, x, y + sheet.pt(12), { width });
    }),
  );
  return y + sheet.pt(12) + sheet.use('bold', 16).heightOfString(subject, { width }) + sheet.pt(4);
}

/** Head of the second page and those after it. */
function running(sheet: Sheet, { title, subject, banner }: ReportDocument): number {
  const { x, width } = sheet.area;
  const y = sheet.margin - 12;
  sheet.artifact(() => {
    sheet.use('plain', 8).fillColor('#4a4a4a').text(`${title}: ${subject}`, x, y, { width, lineBreak: false });
    if (banner !== undefined) sheet.use('bold', 8).text(banner, x, y, { width, align: 'right', lineBreak: false });
  });
  sheet.rule(x, y + sheet.pt(13), width, 0.5);
  return y + sheet.pt(22);
}

/** Known only at the end: how many pages there are. */
function feet(sheet: Sheet, { foot, language }: ReportDocument): void {
  const words = catalogue[language].common;
  for (let page = 0; page < sheet.pages; page++) {
    sheet.pdf.switchToPage(page);
    const { x, width } = sheet.area;
    const y = sheet.size.height - sheet.margin;
    sheet.rule(x, y - 4, width, 0.5);
    sheet.artifact(() => {
      sheet.pdf.font('plain').fontSize(6.8).fillColor('#4a4a4a');
      sheet.pdf.text(foot, x, y, { width: width - 70, lineBreak: false });
      sheet.pdf.text(words.page(page + 1, sheet.pages), x, y, { width, align: 'right', lineBreak: false });
    });
  }
}
