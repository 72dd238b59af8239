import { forceRules } from './forces.ts';
import { rateRules } from './rates.ts';
import { sideRules } from './sides.ts';
import type { NoiseRule } from './weight.ts';

export * from './weight.ts';

/** How single-sample noise reaches each metric, by its id; a test keeps the map complete. */
export const noiseRules: Readonly<Record<string, NoiseRule>> = { ...forceRules, ...rateRules, ...sideRules };
