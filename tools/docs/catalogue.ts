import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type CheckDefinition, checkRegistry, type MetricDefinition, metricRegistry } from '@sthene/core';

/**
 * Writes the reference pages of metrics and checks from the registries, so that the pages say what the program computes.
 *
 * Run: npx tsx --conditions=source tools/docs/catalogue.ts
 */
const reference = new URL('../../docs/reference/', import.meta.url);

/** Text that may stand in a table cell. */
const cell = (text: string): string => text.replaceAll('|', '\\|');

const notice =
  '<!-- Written by tools/docs/catalogue.ts from the registries. Change the definitions, not this page. -->';

const better = { higher: 'more', lower: 'less', neither: '-' } as const;

const metricRow = (metric: MetricDefinition): string =>
  `| ${[
    `\`${metric.id}\``,
    String(metric.version),
    metric.title,
    metric.unit,
    cell(metric.formula),
    metric.dependsOnOnset ? 'yes' : 'no',
    metric.rate ? 'yes' : 'no',
    better[metric.better],
  ].join(' | ')} |`;

/** Sources in the order they first appear, each with the metrics that rest on it. */
function metricSources(metrics: readonly MetricDefinition[]): string[] {
  const bySource = new Map<string, string[]>();
  for (const { source, id } of metrics) bySource.set(source, [...(bySource.get(source) ?? []), id]);
  return [...bySource].map(([source, ids]) => `- ${source}: ${ids.map((id) => `\`${id}\``).join(', ')}`);
}

/** The page of all metrics. */
export const metricsPage = (): string =>
  [
    notice,
    '',
    '# Metrics',
    '',
    'What each number of an isometric trial means. Letters: F total force, L and R the sides, W body weight, g the acceleration of free',
    'fall at the site, B and S mean and SD of the baseline, Q the quiet level, F_p the peak force at index p, r the half rise, e the end of',
    'the effort, o the onset, fs the sample rate. Between samples the force is interpolated linearly; integrals are trapezoidal. A window of',
    'a given time holds round(time x fs) samples.',
    '',
    'A metric is a value or a reason. When several things stand in the way the first of this list is given: the reason of the onset (or of',
    'the baseline, where that is what is needed); that of the body weight; `one-side-only`; `window-too-short`; `interval-past-end`;',
    '`gap-in-interval`; `not-defined`. The interval judged for gaps is the one the metric shows; whatever uses F_p or p also needs every',
    'sample of (r, e].',
    '',
    'Units are UCUM codes. In a recording of another quantity than force its unit takes the place of N.',
    '',
    '"Onset" says whether the metric moves with the onset rule. "Rate" says whether a check that speaks only of rates touches it. "Better"',
    'is the direction that is called an improvement.',
    '',
    '| id | version | title | unit | definition | onset | rate | better |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...metricRegistry.all.map(metricRow),
    '',
    '## Sources',
    '',
    ...metricSources(metricRegistry.all),
    '',
  ].join('\n');

const limits = (check: CheckDefinition): string => {
  const entries = Object.entries(check.defaultLimits).map(([name, value]) => `\`${name}\` ${value}`);
  return entries.length > 0 ? entries.join(', ') : 'those of the test';
};

const checkSection = (check: CheckDefinition): string[] => [
  `## ${check.title}`,
  '',
  `\`${check.id}\`, version ${check.version}`,
  '',
  check.why,
  '',
  `- Definition: ${check.definition}`,
  `- Unit: ${check.unit}`,
  `- Limits: ${limits(check)}`,
  `- Touches: ${check.scope === 'rates' ? 'rates of force development and other values timed from the onset; peak force may still stand' : 'the whole trial'}`,
  `- Source: ${check.source}`,
  '',
];

/** The page of all checks. */
export const checksPage = (): string =>
  [
    notice,
    '',
    '# Checks',
    '',
    'What is looked at before a trial counts. Each check gives pass, warn, fail or not judged, with its value, the limit that decided and the',
    'samples it judged. A trial counts when nothing warns or fails. Letters are those of the [metrics](metrics.md); q is the start of the rise,',
    'the last index before r with F <= B + 0.1 (F_p - B).',
    '',
    'Limits are parameters of the method. `warn` and `fail` are in the unit of the check; with the endings `ShareOfWeight`, `ShareOfPeak` and',
    '`Sds` they are multiplied by W, F_p and S; where several are given for one level the largest holds. A limit is passed when it is',
    'exceeded, not when it is met. Limits in newtons are not held against tests without body weight.',
    '',
    ...checkRegistry.all.flatMap(checkSection),
  ].join('\n');

/** Files of the reference and what they must hold. */
export const pages: readonly { readonly path: string; readonly text: () => string }[] = [
  { path: fileURLToPath(new URL('metrics.md', reference)), text: metricsPage },
  { path: fileURLToPath(new URL('checks.md', reference)), text: checksPage },
];

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const page of pages) writeFileSync(page.path, page.text());
}
