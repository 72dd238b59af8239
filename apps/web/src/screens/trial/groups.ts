import { type MetricFacts, metricFacts } from '@sthene/core';
import { words } from '../../words/index.ts';
import type { Result } from './numbers.ts';

/** The ten values a person looks at first. */
export const headline = [
  'peak_force',
  'peak_force_net',
  'peak_force_relative',
  'force_at_100',
  'force_at_200',
  'rfd_0_100',
  'rfd_0_200',
  'impulse_0_200',
  'time_to_peak',
  'asymmetry_at_peak',
] as const;

type GroupId = keyof typeof words.values.groups;

/** The group of a metric, by the first words of its id. */
export function groupOf(id: string): GroupId {
  if (/^body_/.test(id)) return 'body';
  if (/^(left|right|asymmetry|standing)_/.test(id)) return 'sides';
  if (/^rfd_/.test(id)) return 'rfd';
  if (/^impulse_/.test(id)) return 'impulse';
  if (/^force_(at|net_at|share_at)_/.test(id)) return 'time';
  if (/^(peak|best)_|^force_loss/.test(id)) return 'peak';
  return 'other';
}

export interface MetricGroup {
  readonly id: GroupId;
  readonly title: string;
  readonly metrics: readonly string[];
}

/** All metrics of a result that are not in the headline, in the registry's order, by group. */
export function groupsOf(result: Result): MetricGroup[] {
  const known = metricFacts.all.map((metric) => metric.id).filter((id) => id in result.metrics);
  const rest = [...known, ...Object.keys(result.metrics).filter((id) => !metricFacts.has(id))];
  const shown = new Set<string>(headline);
  return (Object.keys(words.values.groups) as GroupId[])
    .map((id) => ({
      id,
      title: words.values.groups[id],
      metrics: rest.filter((metric) => !shown.has(metric) && groupOf(metric) === id),
    }))
    .filter((group) => group.metrics.length > 0);
}

/** Title of a metric; one this page does not know keeps its id. */
export const metricTitle = (id: string): string => metricFacts.get(id)?.title ?? id.replaceAll('_', ' ');

export const definitionOf = (id: string): MetricFacts | undefined => metricFacts.get(id);
