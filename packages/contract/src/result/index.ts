export * from './document.ts';
export * from './from-trial.ts';
export * from './trial.ts';
