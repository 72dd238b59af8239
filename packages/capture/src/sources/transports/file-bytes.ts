import { open, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { ByteSource } from '@sthene/formats';

/** A file as random-access bytes; each read opens it for itself, so nothing stays open. */
export async function fileBytes(path: string): Promise<ByteSource> {
  const { size } = await stat(path);
  return {
    name: basename(path),
    length: size,
    async read(offset, length) {
      const file = await open(path, 'r');
      try {
        const bytes = new Uint8Array(Math.max(0, Math.min(length, size - offset)));
        const { bytesRead } = await file.read(bytes, 0, bytes.length, offset);
        return bytes.subarray(0, bytesRead);
      } finally {
        await file.close();
      }
    },
  };
}
