export * from './corrected-channels.ts';
export * from './stream-channels.ts';
