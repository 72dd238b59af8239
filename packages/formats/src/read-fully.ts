import type { ByteSource } from './format.ts';

/** Reads `length` bytes from `offset`, asking again after short reads; fewer only where the source has no more. */
export async function readFully(source: ByteSource, offset: number, length: number): Promise<Uint8Array> {
  const want = Math.max(0, Math.min(length, source.length - offset));
  const first = await source.read(offset, want);
  if (first.length >= want) return first.subarray(0, want);
  const all = new Uint8Array(want);
  all.set(first);
  let have = first.length;
  let last = first.length;
  while (have < want && last > 0) {
    const more = await source.read(offset + have, want - have);
    last = Math.min(more.length, want - have);
    all.set(more.subarray(0, last), have);
    have += last;
  }
  return all.subarray(0, have);
}
