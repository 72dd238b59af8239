import { builtInProtocols } from '@sthene/core';
import {
  athleteReport,
  batteryReport,
  type Language,
  methodsReport,
  platesReport,
  protocolReport,
  type ReportDocument,
  type ReportFrame,
  reliabilityReport,
  sessionReport,
  squadReport,
} from '../src/index.ts';
import { tested } from './battery.ts';
import { eight, frame, log, oona, peakForce, pullProtocol, standard, weir, youngOona } from './fernwater.ts';
import { checkedPlates } from './plates.ts';

const pull = builtInProtocols.get('imtp');
if (pull === undefined) throw new Error('There is no pull.');
const protocol = { document: pull.document, sha256: pullProtocol.sha256 };

/** An athlete's page that must not be withheld. */
export function page(input = oona, more: Partial<ReportFrame> = {}): ReportDocument {
  const made = athleteReport(input, { ...frame, ...more });
  if ('withheld' in made) throw new Error(made.withheld);
  return made;
}

/** One report of each kind. */
export const documents = (language: Language): Readonly<Record<string, ReportDocument>> => {
  const own = { ...frame, language };
  return {
    athlete: page(oona, own),
    young: page(youngOona, own),
    battery: batteryReport(tested, own),
    squad: squadReport(eight, own),
    session: sessionReport(log, own),
    reliability: reliabilityReport(weir, own),
    methods: methodsReport({ method: standard, protocol, metrics: [peakForce], gravity: 9.80665 }, own),
    protocol: protocolReport(protocol, own),
    plates: platesReport(checkedPlates, own),
  };
};

/** Every text of a document, for looking in it. */
export const textOf = (report: ReportDocument): string => JSON.stringify(report.blocks);
