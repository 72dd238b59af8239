export * from './api/index.ts';
export * from './result/index.ts';
