export * from './align.ts';
export * from './clock.ts';
export * from './rate.ts';
export * from './time.ts';
