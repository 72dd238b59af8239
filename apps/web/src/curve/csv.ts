import type { CurveModel, Series } from './model.ts';
import type { View } from './view.ts';

/** A column name for machines: lower case, underscores, unit at the end. */
const column = (series: Series, unit: string) =>
  `${series.id.replace(/[^a-z0-9]+/gi, '_').toLowerCase()}_${unitName(unit)}`;
export const unitName = (unit: string) =>
  unit
    .toLowerCase()
    .replaceAll('/', '_per_')
    .replace(/[^a-z0-9_]+/g, '');

/**
 * The samples that are drawn, as text: one row a sample of the trial's own grid inside the view, full double precision,
 * point as decimal sign, missing samples empty. Columns: `time_s` (or `time_from_onset_s` when the axis counts from the
 * onset), then `left_n`, `right_n`, `total_n` as present, then overlaid trials, each at the nearest of its own samples.
 */
export function curveCsv(model: CurveModel, view: View): string {
  const total = model.series[0];
  if (!total) return '';
  const rank = (series: Series) => (series.id === 'left' ? 0 : series.id === 'right' ? 1 : series === total ? 2 : 3);
  const columns = [...model.series].sort((a, b) => rank(a) - rank(b));
  const time = model.start === 0 ? 'time_s' : 'time_from_onset_s';
  const rows = [[time, ...columns.map((series) => column(series, model.unit))].join(',')];
  const first = Math.max(0, Math.ceil((view.from - model.start) * model.rate - 1e-6));
  const last = Math.min(model.samples - 1, Math.floor((view.to - model.start) * model.rate + 1e-6));
  for (let i = first; i <= last; i++) {
    // One division from whole numbers: the time of sample n is exactly what n / rate gives.
    const instant = model.start === 0 ? i / model.rate : (i + model.start * model.rate) / model.rate;
    rows.push([String(instant), ...columns.map((series) => cell(series, instant))].join(','));
  }
  return `${rows.join('\n')}\n`;
}

function cell(series: Series, instant: number): string {
  const sample = Math.round((instant - series.start) * series.rate);
  const value = series.pyramid.values[sample];
  if (value === undefined || series.breaks.some((gap) => sample >= gap.start && sample < gap.end)) return '';
  return String(value);
}
