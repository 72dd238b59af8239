export * from './api/index.ts';
export * from './application.ts';
export * from './result/index.ts';
