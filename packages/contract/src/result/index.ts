export * from './document.ts';
export * from './trial.ts';
