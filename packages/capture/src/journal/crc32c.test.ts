import { describe, expect, it } from 'vitest';
import { crc32c } from './crc32c.ts';

const ascii = (text: string) => new TextEncoder().encode(text);

describe('crc32c', () => {
  // The published check value of CRC-32/ISCSI for "123456789".
  it('gives the published check value', () => expect(crc32c(ascii('123456789'))).toBe(0xe3069283));

  // RFC 3720, appendix B.4; written from memory. The RFC prints the sum as it is sent, low byte first (`aa 36 91 8a`).
  it.each([
    ['32 bytes of zero', new Uint8Array(32), 0x8a9136aa],
    ['32 bytes of ones', new Uint8Array(32).fill(0xff), 0x62a8ab43],
    ['32 rising bytes', Uint8Array.from({ length: 32 }, (_, i) => i), 0x46dd794e],
    ['32 falling bytes', Uint8Array.from({ length: 32 }, (_, i) => 31 - i), 0x113fdb5c],
  ])('gives the value of RFC 3720 for %s', (_name, bytes, want) => expect(crc32c(bytes)).toBe(want));

  it('goes on from an earlier sum, and takes a piece of an array', () => {
    const bytes = ascii('..123456789..');
    expect(crc32c(bytes, 2, 11)).toBe(0xe3069283);
    expect(crc32c(bytes, 5, 11, crc32c(bytes, 2, 5))).toBe(0xe3069283);
    expect(crc32c(new Uint8Array(0))).toBe(0);
  });
});
