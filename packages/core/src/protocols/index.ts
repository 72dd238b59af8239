export { isometricEffortIn } from './isometric-effort.ts';
export * from './lab/index.ts';
export * from './protocol.ts';
export * from './registry.ts';
export * from './running.ts';
export * from './running-jumps.ts';
