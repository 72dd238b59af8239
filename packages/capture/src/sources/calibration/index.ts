export * from './stream-channels.ts';
