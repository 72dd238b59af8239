import { hexBytes } from '../../description/reader.ts';
import type { Checksum, FieldType, FrameLayout } from '../../description.ts';

export const bytesOfType: Readonly<Record<FieldType, number>> = {
  u8: 1,
  i8: 1,
  u16: 2,
  i16: 2,
  u24: 3,
  i24: 3,
  u32: 4,
  i32: 4,
  f32: 4,
  f64: 8,
};

export const checksumBytes: Readonly<Record<Checksum['kind'], number>> = {
  none: 0,
  sum8: 1,
  xor8: 1,
  crc16: 2,
  crc32: 4,
};

/** Bytes of one frame, sync bytes and checksum included. */
export function frameLength(layout: FrameLayout): number {
  const width = (fields: readonly { readonly type: FieldType }[]) =>
    fields.reduce((sum, { type }) => sum + bytesOfType[type], 0);
  const sync = hexBytes(layout.sync)?.length ?? 0;
  return sync + width(layout.head) + layout.samples * width(layout.sample) + checksumBytes[layout.checksum.kind];
}
