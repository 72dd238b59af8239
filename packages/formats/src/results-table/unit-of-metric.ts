import { convert, convertible, metricFacts, unitOf } from '@sthene/core';

/** A kilogram written where a force stands is a kilogram-force: the scale of a gym shows it. Common practice. */
const asForce: Readonly<Record<string, string>> = { kg: 'kgf', '[lb_av]': '[lbf_av]' };

/**
 * A value in the unit of a metric, or why that cannot be. A conversion by 1 leaves every bit as it is.
 *
 * @param unit UCUM code; '' for a metric without one
 */
export function inUnitOf(
  metric: string,
  value: number,
  unit: string,
): { readonly value: number; readonly unit: string } | 'cell-unit-unknown' | 'cell-unit-unfit' {
  const own = metricFacts.get(metric)?.unit ?? '1';
  const from = unit === '' ? '1' : unit;
  if (from === own) return { value, unit: own };
  if (convertible(from, own)) return { value: tidy(convert(value, from, own)), unit: own };
  const force = asForce[from];
  // A body weight in kilograms is no weight but a mass: that metric has an id of its own.
  if (force !== undefined && metric !== 'body_weight' && convertible(force, own))
    return { value: tidy(convert(value, force, own)), unit: own };
  return unitOf(from) === undefined ? 'cell-unit-unknown' : 'cell-unit-unfit';
}

/** Takes the last binary digits that a decimal factor adds: 2.481 kN is 2481 N, not 2480.9999999999995. */
const tidy = (value: number): number => Number(value.toPrecision(15));

/** Units that values of a metric may be given in, the metric's own first. */
export function unitsFor(metric: string, all: readonly { readonly code: string }[]): string[] {
  const own = metricFacts.get(metric)?.unit ?? '1';
  const others = all
    .map(({ code }) => code)
    .filter((code) => code !== own && typeof inUnitOf(metric, 1, code) === 'object');
  return [own, ...others];
}
