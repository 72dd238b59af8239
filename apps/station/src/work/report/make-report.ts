import type { ReportKind, ReportQuery } from '@sthene/contract';
import {
  athleteReport,
  batteryReport,
  methodsReport,
  platesReport,
  protocolReport,
  type ReportDocument,
  reliabilityReport,
  sessionReport,
  squadReport,
} from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { athleteInput } from './athlete.ts';
import { batteryInput } from './battery.ts';
import { frameOf } from './frame.ts';
import type { Says } from './handed-out.ts';
import { methodsInput } from './methods.ts';
import { platesInput } from './plates.ts';
import { protocolInput } from './protocol.ts';
import { massOfMinor } from './refusals.ts';
import { reliabilityInput } from './reliability.ts';
import { sessionInput } from './session.ts';
import { squadInput } from './squad.ts';

/** A report, and what it says of athletes that another method could make it say otherwise. */
interface Made {
  readonly report: ReportDocument;
  readonly says: readonly Says[];
}

/** A report of stored results as a document. Nothing is computed here that no screen shows. */
export async function makeReport(lab: OpenLab, kind: ReportKind, asked: ReportQuery): Promise<Made> {
  const frame = await frameOf(lab, asked);
  switch (kind) {
    case 'athlete': {
      const { input, says } = await athleteInput(lab, asked);
      const report = athleteReport(input, frame);
      if ('withheld' in report) throw massOfMinor();
      return { report, says };
    }
    case 'battery': {
      const { input, says } = await batteryInput(lab, asked);
      return { report: batteryReport(input, frame), says };
    }
    case 'squad': {
      const { input, says } = await squadInput(lab, asked);
      return { report: squadReport(input, frame), says };
    }
    case 'session':
      return { report: sessionReport(await sessionInput(lab, asked), frame), says: [] };
    case 'reliability':
      return { report: reliabilityReport(await reliabilityInput(lab, asked), frame), says: [] };
    case 'methods':
      return { report: methodsReport(await methodsInput(lab, asked), frame), says: [] };
    case 'plates':
      return { report: platesReport(await platesInput(lab, asked), frame), says: [] };
    case 'protocol':
      return { report: protocolReport(await protocolInput(lab, asked), frame), says: [] };
  }
}
