import type { ResultDocument } from '@sthene/contract';
import { csvLine } from '../../terminal/csv.ts';

/** Every metric of every trial, one a line: the long table that any statistics program reads. */
export function metricTable(document: ResultDocument): string {
  let text = csvLine([
    'file',
    'label',
    'trial',
    'test',
    'method',
    'method_sha256',
    'verdict',
    'metric',
    'value',
    'unit',
    'reason',
  ]);
  for (const recording of document.recordings) {
    recording.trials.forEach((trial, i) => {
      for (const [id, metric] of Object.entries(trial.metrics)) {
        const has = 'value' in metric;
        text += csvLine([
          recording.file,
          recording.label,
          i + 1,
          trial.test,
          `${trial.method.name} ${trial.method.version}`,
          trial.method.sha256,
          trial.verdict,
          id,
          has ? metric.value : undefined,
          has ? metric.unit : undefined,
          has ? undefined : metric.reason,
        ]);
      }
    });
  }
  return text;
}
