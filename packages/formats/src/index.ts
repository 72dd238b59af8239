export * from './byte-source.ts';
export * from './format.ts';
export * from './format-error.ts';
