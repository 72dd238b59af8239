export * from './metric.ts';
