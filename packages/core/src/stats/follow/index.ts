export * from './follow.ts';
export * from './noise.ts';
