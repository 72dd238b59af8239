import PDFDocument from 'pdfkit';
import type { ReportDocument } from '../model/document.ts';
import { type Paper, papers } from '../model/paper.ts';
import { packEverywhereAlike } from './fixed-bytes.ts';
import type { FontName } from './fonts.ts';
import { fonts } from './parsed-fonts.ts';

export type Pdf = InstanceType<typeof PDFDocument>;
/** A structure element of the tagged document. */
export type Element = ReturnType<Pdf['struct']>;

/** Where to draw: a column of a page. All sizes in points. */
export interface Area {
  readonly x: number;
  readonly width: number;
}

/** A report being drawn. Text flows down; whoever draws asks for room first. */
export class Sheet {
  readonly pdf: Pdf;
  /** The whole document, to which every element belongs. */
  readonly root: Element;
  readonly margin = 42;
  /** All type and gaps are set by it. */
  readonly scale: number;
  readonly size: { readonly width: number; readonly height: number };
  y = 0;
  pages = 1;
  /** Draws what stands on top of every page, and says where its text begins. */
  private top: () => number = () => this.margin;
  private readonly chunks: Uint8Array[] = [];
  private readonly done: Promise<Uint8Array>;

  constructor(report: ReportDocument, paper: Paper, scale: number) {
    this.scale = scale;
    this.size = papers[paper];
    this.pdf = new PDFDocument({
      size: [this.size.width, this.size.height],
      margin: 0,
      pdfVersion: '1.7',
      tagged: true,
      lang: report.language === 'de' ? 'de-DE' : 'en-GB',
      displayTitle: true,
      compress: false,
      bufferPages: true,
      autoFirstPage: false,
      font: null as never,
      info: {
        Title: `${report.title}: ${report.subject}`,
        Author: report.lab.name,
        Creator: 'Sthene',
        Producer: 'Sthene',
        CreationDate: new Date(report.dated),
        ModDate: new Date(report.dated),
      },
    });
    packEverywhereAlike(this.pdf);
    for (const [name, font] of Object.entries(fonts())) this.pdf.registerFont(name, font as never);
    this.done = new Promise((resolve, reject) => {
      this.pdf.on('data', (chunk: Uint8Array) => this.chunks.push(chunk));
      this.pdf.on('end', () => resolve(new Uint8Array(Buffer.concat(this.chunks))));
      this.pdf.on('error', reject);
    });
    this.root = this.pdf.struct('Document');
    this.pdf.addStructure(this.root);
  }

  /** Begins the first page. */
  begin(top: () => number): void {
    this.top = top;
    this.pdf.addPage();
    this.y = this.top();
  }

  get area(): Area {
    return { x: this.margin, width: this.size.width - 2 * this.margin };
  }

  /** Lowest point of text; the foot stands below. */
  get floor(): number {
    return this.size.height - this.margin - 14;
  }

  /** Turns the page where so much does not fit any more. Says whether it did. */
  room(height: number): boolean {
    if (this.y + height <= this.floor) return false;
    this.pdf.addPage();
    this.pages += 1;
    this.y = this.top();
    return true;
  }

  /** A size of this sheet's scale. */
  pt(points: number): number {
    return points * this.scale;
  }

  use(font: FontName, size: number): Pdf {
    return this.pdf.font(font).fontSize(this.pt(size));
  }

  /** What is no part of the text: lines, repeated heads, page numbers. */
  artifact(draw: () => void): void {
    this.pdf.markContent('Artifact', { type: 'Layout' });
    draw();
    this.pdf.endMarkedContent();
  }

  rule(x: number, y: number, width: number, weight: number, colour = '#1b1b1b'): void {
    this.artifact(() => {
      this.pdf
        .save()
        .moveTo(x, y)
        .lineTo(x + width, y)
        .lineWidth(weight)
        .strokeColor(colour)
        .stroke()
        .restore();
    });
  }

  finish(): Promise<Uint8Array> {
    this.root.end();
    this.pdf.end();
    return this.done;
  }
}
