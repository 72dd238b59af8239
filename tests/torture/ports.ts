// The test ports of the journal, in one place; they are not part of the package's public face.
export * from '../../packages/capture/src/journal/testing/encoded.ts';
export * from '../../packages/capture/src/journal/testing/fault-port.ts';
export * from '../../packages/capture/src/journal/testing/hand-clock.ts';
export * from '../../packages/capture/src/journal/testing/memory-disk.ts';
export * from '../../packages/capture/src/journal/testing/random.ts';
export * from '../../packages/capture/src/journal/testing/session.ts';
