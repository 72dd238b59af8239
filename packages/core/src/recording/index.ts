export * from './forces.ts';
export * from './notice.ts';
export * from './recording.ts';
export * from './sample.ts';
