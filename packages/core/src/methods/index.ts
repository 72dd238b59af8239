export * from './method.ts';
