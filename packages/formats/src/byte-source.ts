import type { ByteSource } from './format.ts';

/** Bytes already in memory as a source. */
export function bytesOf(bytes: Uint8Array, name = ''): ByteSource {
  return {
    name,
    length: bytes.length,
    read: async (offset, length) =>
      bytes.subarray(Math.min(offset, bytes.length), Math.min(offset + length, bytes.length)),
  };
}

/** A browser's Blob or File as a source. */
export function blobOf(blob: Blob, name = ''): ByteSource {
  return {
    name,
    length: blob.size,
    read: async (offset, length) => new Uint8Array(await blob.slice(offset, offset + length).arrayBuffer()),
  };
}
