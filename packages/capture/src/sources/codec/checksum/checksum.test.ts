import { describe, expect, it } from 'vitest';
import type { Checksum } from '../../description.ts';
import { checksumOf, storeChecksum, storedChecksum } from './checksum.ts';

const digits = new TextEncoder().encode('123456789');
const of = (checksum: Checksum, bytes = digits): number => checksumOf(checksum)!(bytes, 0, bytes.length);

// Outside truth: the check values of "123456789" in Greg Cook's catalogue of parametrised CRC algorithms, from memory.
const published: readonly [
  name: string,
  polynomial: number,
  initial: number,
  reflected: boolean,
  final: number,
  check: number,
][] = [
  ['CRC-16/ARC', 0x8005, 0x0000, true, 0x0000, 0xbb3d],
  ['CRC-16/MODBUS', 0x8005, 0xffff, true, 0x0000, 0x4b37],
  ['CRC-16/USB', 0x8005, 0xffff, true, 0xffff, 0xb4c8],
  ['CRC-16/IBM-3740 (CCITT-FALSE)', 0x1021, 0xffff, false, 0x0000, 0x29b1],
  ['CRC-16/XMODEM', 0x1021, 0x0000, false, 0x0000, 0x31c3],
  ['CRC-16/KERMIT', 0x1021, 0x0000, true, 0x0000, 0x2189],
  ['CRC-16/IBM-SDLC (X-25)', 0x1021, 0xffff, true, 0xffff, 0x906e],
  ['CRC-16/GENIBUS', 0x1021, 0xffff, false, 0xffff, 0xd64e],
  ['CRC-16/DNP', 0x3d65, 0x0000, true, 0xffff, 0xea82],
];

describe('checksums', () => {
  it.each(published)('%s gives its published check value', (_name, polynomial, initial, reflected, finalXor, check) => {
    expect(of({ kind: 'crc16', polynomial, initial, reflected, finalXor })).toBe(check);
  });

  it('CRC-32 gives 0xCBF43926', () => {
    expect(of({ kind: 'crc32' })).toBe(0xcbf43926);
  });

  it('sums and exclusive-ors bytes', () => {
    // By hand: 49 + ... + 57 = 477 = 0x1dd; 1 ^ 2 ^ ... ^ 9 = 1, with 0x30 nine times: 0x31.
    expect(of({ kind: 'sum8' })).toBe(0xdd);
    expect(of({ kind: 'xor8' })).toBe(0x31);
    expect(checksumOf({ kind: 'none' })).toBeUndefined();
  });

  it('stands in a frame in either order of bytes', () => {
    for (const endian of ['little', 'big'] as const) {
      const bytes = new Uint8Array(6);
      storeChecksum(bytes, 1, { kind: 'crc32', endian }, 0xcbf43926);
      expect(storedChecksum(bytes, 1, { kind: 'crc32', endian })).toBe(0xcbf43926);
      expect([...bytes.slice(1, 5)]).toEqual(endian === 'big' ? [0xcb, 0xf4, 0x39, 0x26] : [0x26, 0x39, 0xf4, 0xcb]);
    }
  });
});
