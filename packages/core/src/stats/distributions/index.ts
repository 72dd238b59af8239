export * from './distributions.ts';
export * from './noncentral-t.ts';
export * from './root.ts';
