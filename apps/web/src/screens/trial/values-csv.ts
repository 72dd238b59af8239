import type { TrialView } from '@sthene/contract';
import { metricTitle } from './groups.ts';

const quoted = (text: string) => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** All values in full precision: id, title, value, unit, why there is none, spread, method, recording. */
export function valuesCsv(view: Pick<TrialView, 'result' | 'recording'>): string {
  const { result, recording } = view;
  const rows = [
    'metric,title,value,unit,reason,spread_min,spread_max,onset_rule,method,method_version,method_sha256,recording_sha256',
  ];
  const rule = result.onset.ok ? result.onset.value.rule : '';
  for (const [id, measured] of Object.entries(result.metrics)) {
    const spread = result.spread[id];
    const value = 'value' in measured ? [String(measured.value), measured.unit, ''] : ['', '', measured.reason];
    const range = spread ? [String(spread.min), String(spread.max)] : ['', ''];
    const method = [result.method.name, String(result.method.version), result.method.sha256];
    rows.push([id, metricTitle(id), ...value, ...range, rule, ...method, recording.sha256].map(quoted).join(','));
  }
  return `${rows.join('\n')}\n`;
}
