import { createHash } from 'node:crypto';

/**
 * Ids of a live effort, from its capture and its first sample there: the same before and after a crash, so that a verdict may be
 * told before the trial is in the store.
 */
export function effortIds(capture: string, firstSample: number): { readonly trial: string; readonly session: string } {
  return { trial: uuidOf(`trial ${capture} ${firstSample}`), session: uuidOf(`session ${capture} ${firstSample}`) };
}

/** A UUID of version 8 (RFC 9562): custom, here the first bits of a SHA-256. */
function uuidOf(text: string): string {
  const bytes = createHash('sha256').update(text).digest().subarray(0, 16);
  bytes.writeUInt8((bytes.readUInt8(6) & 0x0f) | 0x80, 6);
  bytes.writeUInt8((bytes.readUInt8(8) & 0x3f) | 0x80, 8);
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
