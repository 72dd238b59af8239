export * from './access/index.ts';
export * from './api/index.ts';
export * from './application.ts';
export * from './live/index.ts';
export * from './result/index.ts';
