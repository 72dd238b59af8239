import { type ChunkHead, chunkHead } from './video.ts';

/** Largest piece of a video in one request, bytes: a second or two of film. */
export const largestChunk = 16 * 1024 * 1024;

/**
 * One request carries a piece of the file and what must not be lost without it.
 *
 * Layout, little-endian: u32 length of the head in bytes, the head as JSON (UTF-8), then the piece as the recorder gave it.
 */
export function encodeChunk(head: ChunkHead, piece: Uint8Array): Uint8Array<ArrayBuffer> {
  const text = new TextEncoder().encode(JSON.stringify(head));
  const bytes = new Uint8Array(4 + text.length + piece.length);
  new DataView(bytes.buffer).setUint32(0, text.length, true);
  bytes.set(text, 4);
  bytes.set(piece, 4 + text.length);
  return bytes;
}

/** Reads what `encodeChunk` wrote; undefined when it is something else. The piece shares the memory of `bytes`. */
export function decodeChunk(bytes: Uint8Array): { readonly head: ChunkHead; readonly piece: Uint8Array } | undefined {
  if (bytes.length < 4) return undefined;
  const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true);
  if (length > bytes.length - 4) return undefined;
  try {
    const head = chunkHead.safeParse(JSON.parse(new TextDecoder().decode(bytes.subarray(4, 4 + length))));
    return head.success ? { head: head.data, piece: bytes.subarray(4 + length) } : undefined;
  } catch {
    return undefined;
  }
}
