import type { ByteSource } from '../format.ts';
import { type FoundEncoding, isWide, wideToUtf8 } from './encoding.ts';

/** A forward reader that fills a piece of memory with scannable bytes (UTF-8 or latin-1); 0 means the end. */
export interface ByteReader {
  next(into: Uint8Array): Promise<number>;
  /** True when the source ended before the length it promised. */
  shrank(): boolean;
}

/** Reads a text from `start`, counted in scannable bytes after the byte-order mark. */
export function byteReader(source: ByteSource, encoding: FoundEncoding, start: number): ByteReader {
  return isWide(encoding.name) ? wideReader(source, encoding, start) : plainReader(source, encoding.mark + start);
}

function plainReader(source: ByteSource, from: number): ByteReader {
  let offset = from;
  let short = false;
  return {
    shrank: () => short,
    next: async (into) => {
      const want = Math.min(into.length, source.length - offset);
      if (want <= 0) return 0;
      const piece = await source.read(offset, want);
      const got = Math.min(piece.length, want);
      into.set(piece.subarray(0, got));
      offset += got;
      if (got === 0) short = true;
      return got;
    },
  };
}

function wideReader(source: ByteSource, encoding: FoundEncoding, start: number): ByteReader {
  const convert = wideToUtf8(encoding.name);
  let offset = encoding.mark;
  let skip = start;
  let ended = false;
  let short = false;
  return {
    shrank: () => short,
    next: async (into) => {
      while (!ended) {
        // Two bytes of UTF-16 become at most three of UTF-8, and up to three wait inside the decoder.
        const want = Math.min(Math.floor((into.length - 8) / 3) * 2, source.length - offset);
        const piece = want > 0 ? await source.read(offset, want) : new Uint8Array(0);
        if (want > 0 && piece.length === 0) short = true;
        offset += piece.length;
        ended = piece.length === 0;
        let bytes = convert(piece, ended);
        const drop = Math.min(skip, bytes.length);
        skip -= drop;
        bytes = bytes.subarray(drop);
        into.set(bytes);
        if (bytes.length > 0) return bytes.length;
      }
      return 0;
    },
  };
}
