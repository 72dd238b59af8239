import { conversionFactor, convertible } from '../../units/index.ts';
import { pullGroups, pullRanges } from './isometric-pulls.ts';
import { jumpGroups, jumpRanges } from './jumps.ts';
import type { PublishedGroup, PublishedOf, PublishedRange } from './published-group.ts';

/** Every published group and range this program knows. They are of other people, and never part of a lab's own norms. */
export const publishedGroups: readonly PublishedGroup[] = [...pullGroups, ...jumpGroups];
export const publishedRanges: readonly PublishedRange[] = [...pullRanges, ...jumpRanges];

/** What was published of a test and a metric, in the unit asked for. */
export interface Published {
  readonly groups: readonly PublishedGroup[];
  readonly ranges: readonly PublishedRange[];
}

/** Published values of exactly this test and metric, converted to `unit` (UCUM); those of another dimension are left out. */
export function publishedFor({ test, metric, unit }: Pick<PublishedOf, 'test' | 'metric' | 'unit'>): Published {
  const fits = (one: PublishedOf) =>
    one.test === test && one.metric === metric && (one.unit === unit || convertible(one.unit, unit));
  const factorOf = (one: PublishedOf) => (one.unit === unit ? 1 : conversionFactor(one.unit, unit));
  return {
    groups: publishedGroups
      .filter(fits)
      .map((one) => ({ ...one, unit, mean: one.mean * factorOf(one), sd: one.sd * factorOf(one) })),
    ranges: publishedRanges
      .filter(fits)
      .map((one) => ({ ...one, unit, low: one.low * factorOf(one), high: one.high * factorOf(one) })),
  };
}
