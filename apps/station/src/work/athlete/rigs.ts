import type { AthleteChange } from '@sthene/contract';
import { betweenChecks, commonToRig, type MetricDefinition, metricFacts } from '@sthene/core';
import type { Scale } from '@sthene/core/stats';
import { ratioDefinitions } from '../battery/definitions.ts';
import { type Circumstances, measuredIn } from './unlike.ts';

/** What two sessions owe to their rigs, on the scale they are judged on; without a size where a check is missing. */
export type BetweenRigs = { readonly standard?: number };

/**
 * Whether sessions were measured on different rigs, or under different checks of one, and what that leaves between them.
 *
 * @param value the newest value, in the metric's unit
 * @returns undefined on one rig under one check, and where nobody knows the rigs
 */
export function betweenRigs(
  metric: Pick<MetricDefinition, 'id' | 'unit'>,
  now: Circumstances | undefined,
  reference: readonly (Circumstances | undefined)[],
  scale: Scale,
  value: number,
): BetweenRigs | undefined {
  const others = reference.flatMap((one) => one ?? []);
  if (now === undefined || others.length === 0) return undefined;
  const here = measuredIn(now);
  const apart = others.some((one) =>
    measuredIn(one).some(({ session, check }, i) => {
      const own = here[i];
      if (own === undefined) return false;
      return (
        (session.rig !== undefined && own.session.rig !== undefined && session.rig !== own.session.rig) ||
        (check !== undefined && own.check !== undefined && check.id !== own.check.id)
      );
    }),
  );
  if (!apart) return undefined;
  const side = ratioDefinitions.find(({ id }) => id === metric.id)?.sides[0];
  if (side !== undefined) return betweenRatios(side.metric, now, others, value);
  const sizes = new Map<string, number>();
  for (const { check } of [now, ...others]) {
    const size = check && commonToRig(metric, check.rig, scale, value);
    if (check === undefined || size === undefined) return {};
    sizes.set(check.id, size);
  }
  const ids = others.map(({ check }) => check?.id ?? '');
  return { standard: betweenChecks(now.check?.id ?? '', ids, sizes) };
}

/**
 * The same of ratios of two tests, each measured under a check of its own: the gain of the first reaches the ratio with its share, that of
 * the second takes it off again, so that under one check nothing is left.
 *
 * @param metric of either test; values of both follow the gain alike
 */
function betweenRatios(
  metric: string,
  now: Circumstances,
  others: readonly Circumstances[],
  value: number,
): BetweenRigs {
  const unit = metricFacts.get(metric)?.unit ?? '1';
  const owed = new Map<string, number>();
  for (const [one, weight] of [[now, 1], ...others.map((other) => [other, -1 / others.length] as const)] as const)
    for (const [i, { check }] of measuredIn(one).entries()) {
      const size = check && commonToRig({ id: metric, unit }, check.rig, 'log', value);
      if (check === undefined || size === undefined) return {};
      owed.set(check.id, (owed.get(check.id) ?? 0) + (i === 0 ? weight : -weight) * (size / 100));
    }
  return { standard: Math.abs(value) * Math.hypot(...owed.values()) };
}

/** As a page shows it: in the unit of the metric. */
export const shownRigs = (
  rigs: BetweenRigs | undefined,
  inUnit: (difference: number) => number,
): Pick<AthleteChange, 'rigs'> =>
  rigs === undefined ? {} : { rigs: rigs.standard === undefined ? {} : { standard: inUnit(rigs.standard) } };
