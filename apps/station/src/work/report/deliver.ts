import type { ReportContent, ReportFileQuery, ReportKind, ReportQuery } from '@sthene/contract';
import {
  csvOf,
  figuresOf,
  htmlOf,
  pdfOf,
  pngOf,
  type ReportDocument,
  tabbedOf,
  tableHtml,
  tablesOf,
  xlsxOf,
} from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError } from '../../server/problem-error.ts';
import { showAppearance } from './appearance.ts';
import type { Says } from './handed-out.ts';
import { makeReport } from './make-report.ts';

/** A file to hand out. */
export interface ReportFile {
  readonly bytes: Uint8Array;
  readonly mediaType: string;
  readonly name: string;
  /** What it says of athletes. */
  readonly says: readonly Says[];
}

const mediaTypes: Readonly<Record<ReportFileQuery['as'], string>> = {
  pdf: 'application/pdf',
  html: 'text/html; charset=utf-8',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  csv: 'text/csv; charset=utf-8',
  svg: 'image/svg+xml',
  png: 'image/png',
};

/** A report as a file in one format. */
export async function reportFile(lab: OpenLab, kind: ReportKind, query: ReportFileQuery): Promise<ReportFile> {
  const { as, part, paper, ...asked } = query;
  const { report, says } = await makeReport(lab, kind, asked);
  return {
    bytes: await bytesOf(report, as, part, paper ?? (await showAppearance(lab)).paper),
    mediaType: mediaTypes[as],
    name: `${report.file}${part === undefined ? '' : `-${part}`}.${as}`,
    says,
  };
}

async function bytesOf(
  report: ReportDocument,
  as: ReportFileQuery['as'],
  part: string | undefined,
  paper: NonNullable<ReportFileQuery['paper']>,
): Promise<Uint8Array> {
  const utf8 = (text: string) => new TextEncoder().encode(text);
  switch (as) {
    case 'pdf':
      return pdfOf(report, paper);
    case 'html':
      return utf8(htmlOf(report));
    case 'xlsx':
      return xlsxOf(report);
    case 'csv':
      return utf8(csvOf(partOf(tablesOf(report.blocks), part, 'table')));
    case 'svg':
      return utf8(partOf(figuresOf(report.blocks), part, 'figure').svg);
    case 'png':
      return pngOf(partOf(figuresOf(report.blocks), part, 'figure'));
  }
}

function partOf<T extends { readonly id: string }>(parts: readonly T[], id: string | undefined, what: string): T {
  const found = id === undefined ? parts[0] : parts.find((one) => one.id === id);
  if (found !== undefined) return found;
  throw new ProblemError(
    404,
    'report-no-such-part',
    id === undefined ? `This report has no ${what}.` : `This report has no ${what} "${id}".`,
    parts.length === 0 ? 'Take it in another format.' : `It has: ${parts.map((one) => one.id).join(', ')}.`,
  );
}

/** The parts of a report for the clipboard and as pictures. */
export async function reportParts(lab: OpenLab, kind: ReportKind, asked: ReportQuery): Promise<ReportContent> {
  const { title, subject, file, blocks } = (await makeReport(lab, kind, asked)).report;
  return {
    ...{ title, subject, file },
    tables: tablesOf(blocks).map((table) => ({
      id: table.id,
      title: table.title,
      rows: table.rows.length,
      html: tableHtml(table),
      tabbed: tabbedOf(table),
    })),
    figures: figuresOf(blocks).map(({ id, caption, width, height, svg }) => ({ id, caption, width, height, svg })),
  };
}
