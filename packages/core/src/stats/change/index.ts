export * from './change.ts';
export * from './confirmable.ts';
export * from './error.ts';
export * from './prior.ts';
