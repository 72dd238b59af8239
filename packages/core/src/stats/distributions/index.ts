export * from './distributions.ts';
export * from './noncentral-t.ts';
