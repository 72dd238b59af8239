import type { ReportQuery } from '@sthene/contract';
import { builtInProtocols, headlineMetric, protocolReference, protocolRegistry } from '@sthene/core';
import type { MethodsInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { metricNamed } from '../athlete/metrics.ts';
import { testsOfLab } from '../athlete/tests-of-lab.ts';
import { documentOf } from '../protocols.ts';
import { methodFacts } from './method-facts.ts';

/** The built-in jump method for a jump test; the lab's own for every other. */
const usualMethod = (test: string): string | undefined =>
  protocolRegistry.get(test)?.jump === undefined ? undefined : 'jumps';

/** What a paper says of how a value was measured: a method, a protocol, and the values that are reported. */
export async function methodsInput(lab: OpenLab, asked: ReportQuery): Promise<MethodsInput> {
  const test = asked.test ?? (await testsOfLab(lab))[0]?.id ?? builtInProtocols.all[0]?.id ?? 'imtp';
  const document = await documentOf(lab, asked.protocol ?? test);
  const { id } = document.test;
  // Of values that another test gives, or chosen before this one, the headline stands once.
  const metrics = new Set((asked.metric ?? headlineMetric(id)).split(',').map((one) => metricNamed(one.trim(), id)));
  return {
    method: await methodFacts(lab, asked.method ?? usualMethod(id)),
    protocol: { document, sha256: protocolReference(document).sha256 },
    metrics: [...metrics].map(({ id, title, unit, formula, source, better }) => ({
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
