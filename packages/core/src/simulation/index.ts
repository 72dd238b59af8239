export * from './draw.ts';
export type { Fault, Severity } from './faults/fault.ts';
export * from './faults/index.ts';
export * from './fernwater/index.ts';
export * from './parameters.ts';
export * from './random.ts';
export * from './recording-of.ts';
export * from './rise.ts';
export * from './simulate.ts';
