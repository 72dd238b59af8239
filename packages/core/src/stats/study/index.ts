export * from './agreement-study.ts';
export * from './reliability-study.ts';
