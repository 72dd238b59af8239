import { registry } from '../registry.ts';
import { byHand } from './by-hand/by-hand.ts';
import { fixedForceRules } from './fixed-force/fixed-force.ts';
import { forwardFiveSd } from './forward/forward-five-sd.ts';
import { localLine } from './local-line/local-line.ts';
import { percentOfWeightRules } from './percent-of-weight/percent-of-weight.ts';
import type { HandRule, OnsetRule } from './rule.ts';
import { slope } from './slope/slope.ts';
import { fiveSd, fiveSdFloor, threeSd } from './threshold-on-sd/threshold-on-sd.ts';

export * from './backward-search.ts';
export * from './by-hand/by-hand.ts';
export * from './rule.ts';

/** Every onset rule, in the order they are shown. */
export const onsetRegistry = registry<OnsetRule | HandRule>('onset rule', [
  localLine,
  fiveSd,
  fiveSdFloor,
  threeSd,
  ...percentOfWeightRules,
  ...fixedForceRules,
  forwardFiveSd,
  slope,
  byHand,
]);

/** The rules that read the curve alone; they make the method spread. */
export const automaticOnsetRules: readonly OnsetRule[] = onsetRegistry.all.filter((rule) => rule.automatic);
