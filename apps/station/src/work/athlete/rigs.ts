import type { AthleteChange } from '@sthene/contract';
import { betweenChecks, commonToRig, type MetricDefinition } from '@sthene/core';
import type { Scale } from '@sthene/core/stats';
import type { Circumstances } from './unlike.ts';

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
  const apart = others.some(
    ({ session, check }) =>
      (session.rig !== undefined && now.session.rig !== undefined && session.rig !== now.session.rig) ||
      (check !== undefined && now.check !== undefined && check.id !== now.check.id),
  );
  if (!apart) return undefined;
  const sizes = new Map<string, number>();
  for (const { check } of [now, ...others]) {
    const size = check && commonToRig(metric, check.rig, scale, value);
    if (check === undefined || size === undefined) return {};
    sizes.set(check.id, size);
  }
  const ids = others.map(({ check }) => check?.id ?? '');
  return { standard: betweenChecks(now.check?.id ?? '', ids, sizes) };
}

/** As a page shows it: in the unit of the metric. */
export const shownRigs = (
  rigs: BetweenRigs | undefined,
  inUnit: (difference: number) => number,
): Pick<AthleteChange, 'rigs'> =>
  rigs === undefined ? {} : { rigs: rigs.standard === undefined ? {} : { standard: inUnit(rigs.standard) } };
