import { randomBytes } from 'node:crypto';

/** Random bytes kept ahead: asking for a few at a time is slow. */
let pool = Buffer.alloc(0);
let at = 0;

function random(count: number): Buffer {
  if (at + count > pool.length) {
    pool = randomBytes(count * 256);
    at = 0;
  }
  at += count;
  return pool.subarray(at - count, at);
}

/**
 * An unguessable id that begins with the time: 48 bits of milliseconds since 1970, then 74 random bits. Records made one after
 * another then lie side by side in every index, also in one of many millions of rows; wholly random ids would touch a page of its
 * own for each.
 *
 * Source: RFC 9562, 5.7, UUID version 7.
 */
export function timeOrderedId(): string {
  const bytes = Buffer.allocUnsafe(16);
  bytes.writeUIntBE(Date.now(), 0, 6);
  random(10).copy(bytes, 6);
  bytes[6] = 0x70 | ((bytes[6] as number) & 0x0f);
  bytes[8] = 0x80 | ((bytes[8] as number) & 0x3f);
  const text = bytes.toString('hex');
  return `${text.slice(0, 8)}-${text.slice(8, 12)}-${text.slice(12, 16)}-${text.slice(16, 20)}-${text.slice(20)}`;
}
