export * from './butterworth.ts';
export * from './gaps.ts';
export * from './integral.ts';
export * from './interpolate.ts';
export * from './line.ts';
export * from './rounding.ts';
export * from './sliding.ts';
export * from './statistics.ts';
