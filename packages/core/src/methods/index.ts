export * from './built-in/entries.ts';
export * from './canonical.ts';
export * from './derive.ts';
export * from './for-protocol.ts';
export * from './hash.ts';
export * from './lab/index.ts';
export * from './method.ts';
export * from './validate.ts';
