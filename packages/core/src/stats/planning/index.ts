export * from './reliability-study.ts';
