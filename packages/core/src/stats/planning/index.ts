export * from './confirmable-grid.ts';
export * from './reliability-study.ts';
