export * from './differences.ts';
export * from './fields.ts';
export * from './sentences.ts';
export * from './succeed.ts';
