export * from './forces.ts';
export * from './notice.ts';
export * from './platform/index.ts';
export * from './recording.ts';
export * from './sample.ts';
