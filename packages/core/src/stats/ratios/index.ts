export * from './force-velocity.ts';
export * from './strength-index.ts';
export * from './stretch.ts';
