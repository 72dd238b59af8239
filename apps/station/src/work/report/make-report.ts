import type { ReportKind, ReportQuery } from '@sthene/contract';
import {
  athleteReport,
  methodsReport,
  protocolReport,
  type ReportDocument,
  reliabilityReport,
  sessionReport,
  squadReport,
} from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { athleteInput } from './athlete.ts';
import { frameOf } from './frame.ts';
import { methodsInput } from './methods.ts';
import { protocolInput } from './protocol.ts';
import { massOfMinor } from './refusals.ts';
import { reliabilityInput } from './reliability.ts';
import { sessionInput } from './session.ts';
import { squadInput } from './squad.ts';

/** A report of stored results as a document. Nothing is computed here that no screen shows. */
export async function makeReport(lab: OpenLab, kind: ReportKind, asked: ReportQuery): Promise<ReportDocument> {
  const frame = await frameOf(lab, asked);
  switch (kind) {
    case 'athlete': {
      const report = athleteReport(await athleteInput(lab, asked), frame);
      if ('withheld' in report) throw massOfMinor();
      return report;
    }
    case 'squad':
      return squadReport(await squadInput(lab, asked), frame);
    case 'session':
      return sessionReport(await sessionInput(lab, asked), frame);
    case 'reliability':
      return reliabilityReport(await reliabilityInput(lab, asked), frame);
    case 'methods':
      return methodsReport(await methodsInput(lab, asked), frame);
    case 'protocol':
      return protocolReport(await protocolInput(lab, asked), frame);
  }
}
