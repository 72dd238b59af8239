export * from './follow.ts';
export * from './leaning.ts';
export * from './noise.ts';
export * from './recovered.ts';
