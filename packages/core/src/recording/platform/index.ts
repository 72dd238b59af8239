export * from './centre-of-pressure.ts';
export type { Floor, LaboratoryAxis } from './floor.ts';
export * from './laboratory.ts';
export * from './path-figures.ts';
export * from './pressure.ts';
export * from './types.ts';
export * from './vertical-force.ts';
export * from './wrench.ts';
