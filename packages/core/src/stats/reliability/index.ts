export * from './compare-errors.ts';
export * from './icc.ts';
export * from './learning.ts';
export * from './mean-squares.ts';
export * from './one-way.ts';
export * from './standard-error.ts';
export * from './typical-error.ts';
export * from './worthwhile.ts';
