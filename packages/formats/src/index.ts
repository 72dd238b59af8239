export * from './byte-source.ts';
export * from './c3d/index.ts';
export * from './detect.ts';
export * from './format.ts';
export * from './format-error.ts';
export * from './read-fully.ts';
export * from './registry.ts';
export * from './text/index.ts';
