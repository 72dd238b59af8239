import type { ReportDocument } from '../model/document.ts';
import type { Paper } from '../model/paper.ts';

/**
 * A report as a tagged PDF 1.7. The same report on the same paper is the same bytes. What makes it takes as long to load as half of
 * the station, so that it is loaded when the first page is asked for.
 */
export async function pdfOf(report: ReportDocument, paper: Paper): Promise<Uint8Array> {
  const { pdfOf: made } = await import('../pdf/pdf.ts');
  return made(report, paper);
}
