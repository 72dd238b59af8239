export type { FixedEffect, MixedData, MixedModel } from './model.ts';
export { mixedModel } from './model.ts';
