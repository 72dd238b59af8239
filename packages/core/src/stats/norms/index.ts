export * from './place.ts';
export * from './published.ts';
export type * from './published-group.ts';
