import type { Checksum } from '../../description.ts';
import { checksumBytes } from '../frames/frame-length.ts';

/** Works out a checksum over a part of bytes; unsigned. */
export type ChecksumOf = (bytes: Uint8Array, start: number, end: number) => number;

/** The function of a described checksum; undefined for none. Tables are made once. */
export function checksumOf(checksum: Checksum): ChecksumOf | undefined {
  switch (checksum.kind) {
    case 'none':
      return undefined;
    case 'sum8':
      return (bytes, start, end) => {
        let sum = 0;
        for (let i = start; i < end; i++) sum += bytes[i] as number;
        return sum & 0xff;
      };
    case 'xor8':
      return (bytes, start, end) => {
        let sum = 0;
        for (let i = start; i < end; i++) sum ^= bytes[i] as number;
        return sum;
      };
    case 'crc16':
      return crc({ ...checksum, width: 16 });
    case 'crc32':
      return crc({ width: 32, polynomial: 0x04c11db7, initial: 0xffffffff, reflected: true, finalXor: 0xffffffff });
  }
}

/** A cyclic redundancy check as the catalogues of parametrised algorithms name it; input and output reflected alike. */
interface CrcParameters {
  readonly width: 16 | 32;
  /** Without the leading one, highest power first. */
  readonly polynomial: number;
  readonly initial: number;
  readonly reflected: boolean;
  readonly finalXor: number;
}

/** Table-driven; source of the parameter model: R. N. Williams, "A painless guide to CRC error detection algorithms", 1993. */
function crc({ width, polynomial, initial, reflected, finalXor }: CrcParameters): ChecksumOf {
  const mask = width === 32 ? 0xffffffff : 0xffff;
  const table = new Uint32Array(256);
  const shift = width - 8;
  const top = width === 32 ? 0x80000000 : 0x8000;
  const mirrored = mirror(polynomial, width);
  for (let i = 0; i < 256; i++) {
    let value = reflected ? i : (i << shift) >>> 0;
    for (let bit = 0; bit < 8; bit++) {
      if (reflected) value = value & 1 ? ((value >>> 1) ^ mirrored) >>> 0 : value >>> 1;
      else value = value & top ? (((value << 1) ^ polynomial) & mask) >>> 0 : ((value << 1) & mask) >>> 0;
    }
    table[i] = value;
  }
  const first = reflected ? mirror(initial, width) : initial;
  return (bytes, start, end) => {
    let value = first >>> 0;
    for (let i = start; i < end; i++) {
      const byte = bytes[i] as number;
      if (reflected) value = ((value >>> 8) ^ (table[(value ^ byte) & 0xff] as number)) >>> 0;
      else value = (((value << 8) & mask) ^ (table[((value >>> shift) ^ byte) & 0xff] as number)) >>> 0;
    }
    return (value ^ finalXor) >>> 0;
  };
}

function mirror(value: number, width: number): number {
  let out = 0;
  for (let bit = 0; bit < width; bit++) if ((value >>> bit) & 1) out |= 1 << (width - 1 - bit);
  return out >>> 0;
}

/** Reads the checksum that stands in a frame. */
export function storedChecksum(bytes: Uint8Array, at: number, checksum: Checksum): number {
  const count = checksumBytes[checksum.kind];
  const big = 'endian' in checksum && checksum.endian === 'big';
  let value = 0;
  for (let i = 0; i < count; i++) value = value * 256 + (bytes[big ? at + i : at + count - 1 - i] as number);
  return value;
}

/** Writes a checksum into a frame. */
export function storeChecksum(bytes: Uint8Array, at: number, checksum: Checksum, value: number): void {
  const count = checksumBytes[checksum.kind];
  const big = 'endian' in checksum && checksum.endian === 'big';
  for (let i = 0; i < count; i++) bytes[big ? at + count - 1 - i : at + i] = (value >>> (8 * i)) & 0xff;
}
