import { forceRules } from './forces.ts';
import { rateRules } from './rates.ts';
import { sideRules } from './sides.ts';
import type { NoiseRule } from './weight.ts';

export * from './weight.ts';

let rules: Readonly<Record<string, NoiseRule>> | undefined;

/**
 * How single-sample noise reaches each metric, by its id; a test keeps the map complete. Made when first asked for, so that a page that asks
 * for none does not load it.
 */
export function noiseRules(): Readonly<Record<string, NoiseRule>> {
  rules ??= { ...forceRules(), ...rateRules(), ...sideRules() };
  return rules;
}
