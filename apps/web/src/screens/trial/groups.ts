import { type MetricFacts, metricFacts } from '@sthene/core';
import { words } from '../../words/index.ts';
import type { Result } from './numbers.ts';

/** The values of an isometric effort a person looks at first. */
const ofEffort = [
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

/** Those of a jump; a kind of jump has some of them. */
const ofJump = [
  'jump_height',
  'jump_height_flight_time',
  'hop_rsi_best_five',
  'hop_contact_time_best_five',
  'hop_height_best_five',
  'contact_time',
  'reactive_strength_index',
  'drop_height',
  'time_to_take_off',
  'rsi_modified',
  'take_off_velocity',
  'countermovement_depth',
  'propulsion_peak_force',
  'propulsion_peak_power_relative',
  'asymmetry_propulsion_impulse',
] as const;

/** The values a person looks at first. */
export const headlineOf = (result: Pick<Result, 'jump' | 'metrics'>): string[] =>
  (result.jump === undefined ? ofEffort : ofJump).filter((id) => id in result.metrics);

type GroupId = keyof typeof words.values.groups;

/** The group of a metric, by the first words of its id. */
export function groupOf(id: string): GroupId {
  if (/^(body|system)_/.test(id)) return 'body';
  if (/^(jump_height|jump_rise|flight_time|hop_height|drop_height)/.test(id)) return 'height';
  if (/^(landing|contact)_/.test(id)) return 'landing';
  if (/^(reactive|rsi|hop_rsi|flight_contraction)_|^hop_(contact|count)/.test(id)) return 'reactive';
  if (/^(left|right|asymmetry|standing)_/.test(id)) return 'sides';
  if (/_(power|stiffness|rfd)(_|$)|^hop_stiffness/.test(id) && !/^rfd_/.test(id)) return 'power';
  if (/_(peak|mean)_force(_|$)|^lowest_force|^force_at_lowest/.test(id)) return 'phases';
  if (/_time$|_velocity$|_depth$/.test(id) && !/^time_to_peak/.test(id)) return 'motion';
  if (/_impulse(_net)?$|momentum/.test(id)) return 'impulse';
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
  const shown = new Set<string>(headlineOf(result));
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
