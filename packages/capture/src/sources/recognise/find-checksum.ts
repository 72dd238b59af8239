import { checksumOf, storedChecksum } from '../codec/checksum/checksum.ts';
import { checksumBytes } from '../codec/frames/frame-length.ts';
import type { Checksum } from '../description.ts';

const crc16 = (polynomial: number, initial: number, reflected: boolean, finalXor: number) => ({
  kind: 'crc16' as const,
  ...{ polynomial, initial, reflected, finalXor },
});

/** Usual sums, the strongest first. */
const usual: readonly { readonly name: string; readonly checksum: Checksum }[] = [
  { name: 'a CRC-32', checksum: { kind: 'crc32' } },
  { name: 'a CRC-16 (0x1021, 0xffff)', checksum: crc16(0x1021, 0xffff, false, 0) },
  { name: 'a CRC-16 (0x1021, 0)', checksum: crc16(0x1021, 0, false, 0) },
  { name: 'a CRC-16 (0x8005, 0xffff, reflected)', checksum: crc16(0x8005, 0xffff, true, 0) },
  { name: 'a CRC-16 (0x8005, 0, reflected)', checksum: crc16(0x8005, 0, true, 0) },
  { name: 'a CRC-16 (0x1021, 0, reflected)', checksum: crc16(0x1021, 0, true, 0) },
  { name: 'the sum of the bytes', checksum: { kind: 'sum8' } },
  { name: 'the exclusive or of the bytes', checksum: { kind: 'xor8' } },
];

/** Which usual checksum ends the frames: right in at least 95 % of them. */
export function findChecksum(
  frames: readonly Uint8Array[],
  sync: number,
): { checksum: Checksum; width: number; reason?: string } {
  for (const { name, checksum: plain } of usual) {
    const width = checksumBytes[plain.kind];
    const sum = checksumOf(plain);
    const length = frames[0]?.length ?? 0;
    if (sum === undefined || length - width <= sync) continue;
    for (const withSync of [false, true]) {
      for (const endian of width === 1 ? [undefined] : (['little', 'big'] as const)) {
        const checksum = {
          ...plain,
          ...(endian === 'big' ? { endian } : {}),
          ...(withSync ? { withSync } : {}),
        } as Checksum;
        const right = frames.filter(
          (frame) =>
            sum(frame, withSync ? 0 : sync, length - width) === storedChecksum(frame, length - width, checksum),
        ).length;
        if (right < 0.95 * frames.length) continue;
        // A sum over bytes that hardly vary proves nothing.
        if (new Set(frames.map((frame) => storedChecksum(frame, length - width, checksum))).size < 4) continue;
        return { checksum, width, reason: `The last ${width === 1 ? 'byte is' : `${width} bytes are`} ${name}.` };
      }
    }
  }
  return { checksum: { kind: 'none' }, width: 0 };
}
