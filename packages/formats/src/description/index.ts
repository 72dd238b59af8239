export * from './assemble.ts';
export * from './description.ts';
export * from './parse.ts';
export * from './storage.ts';
