export * from './bland-altman.ts';
export * from './kappa.ts';
export * from './proportional.ts';
