import type { ReportKind, ReportQuery } from '@sthene/contract';
import { athleteReport, type ReportDocument } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError } from '../../server/problem-error.ts';
import { athleteInput } from './athlete.ts';
import { frameOf } from './frame.ts';

/** A report of stored results as a document. Nothing is computed here that no screen shows. */
export async function makeReport(lab: OpenLab, kind: ReportKind, asked: ReportQuery): Promise<ReportDocument> {
  const frame = await frameOf(lab, asked);
  switch (kind) {
    case 'athlete': {
      const report = athleteReport(await athleteInput(lab, asked), frame);
      if (!('withheld' in report)) return report;
      throw new ProblemError(
        422,
        'report-mass-of-minor',
        'This value tells body mass, and the athlete is under 18 or has no birth date here.',
        'Choose another value as peak force, or enter the birth date.',
      );
    }
    default:
      throw new ProblemError(501, 'later', 'later', 'later');
  }
}
