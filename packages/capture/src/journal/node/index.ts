export * from './node-journal-port.ts';
