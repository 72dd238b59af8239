import type { ReportQuery } from '@sthene/contract';
import { builtInProtocols, protocolReference } from '@sthene/core';
import type { MethodsInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { metricNamed } from '../athlete/metrics.ts';
import { testsOfLab } from '../athlete/tests-of-lab.ts';
import { documentOf } from '../protocols.ts';
import { methodFacts } from './method-facts.ts';

/** What a paper says of how a value was measured: a method, a protocol, and the values that are reported. */
export async function methodsInput(lab: OpenLab, asked: ReportQuery): Promise<MethodsInput> {
  const test = asked.test ?? (await testsOfLab(lab))[0]?.id ?? builtInProtocols.all[0]?.id ?? 'imtp';
  const document = await documentOf(lab, asked.protocol ?? test);
  const metrics = (asked.metric ?? 'peak_force').split(',').map((id) => metricNamed(id.trim()));
  return {
    method: await methodFacts(lab, asked.method),
    protocol: { document, sha256: protocolReference(document).sha256 },
    metrics: metrics.map(({ id, title, unit, formula, source, better }) => ({
      id,
      title,
      unit,
      formula,
      source,
      better,
    })),
    gravity: lab.gravity,
  };
}
