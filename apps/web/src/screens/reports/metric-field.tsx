import type { LabId } from '@sthene/contract';
import { headlineMetric } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { protocolsQuery } from '../../data/protocols.ts';
import { reportWords as t } from '../../words/reports.ts';
import { Choice } from '../athletes/choice.tsx';
import { offeredMetrics } from './offered-metrics.ts';
import type { ReportChoice } from './use-report.ts';

/** Which value: of the test, or of the test of the protocol where that is what is chosen. */
export function MetricField({ lab, report }: { lab: LabId; report: ReportChoice }) {
  const { kind, values, has, choose } = report;
  const { data = [] } = useQuery({ ...protocolsQuery(lab), enabled: has('protocol') });
  const test = has('protocol') ? (data.find(({ id }) => id === values.protocol)?.test ?? '') : (values.test ?? '');
  const offered = offeredMetrics(kind, test);
  const chosen = offered.find(({ id }) => id === values.metric)?.id ?? headlineMetric(test);
  return (
    <Choice label={t.metric} value={chosen} onChange={(id) => choose('metric', id)}>
      {offered.map(({ id, title }) => (
        <option key={id} value={id}>
          {title}
        </option>
      ))}
    </Choice>
  );
}
