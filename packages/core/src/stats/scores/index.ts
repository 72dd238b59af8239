export * from './lms.ts';
export * from './scores.ts';
