export * from './centre-of-pressure.ts';
export * from './laboratory.ts';
export * from './types.ts';
export * from './vertical-force.ts';
export * from './wrench.ts';
