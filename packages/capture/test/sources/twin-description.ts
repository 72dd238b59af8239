import { encoderOf } from '../../src/sources/codec/index.ts';
import type { SourceDescription, Transport } from '../../src/sources/description.ts';
import { encodedRun } from '../../src/sources/twin/index.ts';

/** Two encoded channels in frames of ten samples, counted by 16 bits, with a CRC-16. */
export const twinDescription = (transport: Transport): SourceDescription => ({
  schema: 'sthene.source/1',
  name: 'Twin',
  transport,
  layout: {
    kind: 'frames',
    sync: 'a55a',
    endian: 'little',
    head: [{ role: 'counter', type: 'u16', wrapsAt: 65535 }],
    sample: [
      { role: 'channel', channel: 'left', type: 'i32' },
      { role: 'channel', channel: 'right', type: 'i32' },
    ],
    samples: 10,
    checksum: { kind: 'crc16', polynomial: 0x1021, initial: 0xffff, reflected: false, finalXor: 0 },
  },
  channels: (['left', 'right'] as const).map((side) => ({
    name: side,
    plate: side,
    side,
    axis: 'z',
    unit: 'N',
    scale: 1,
    offset: 0,
  })),
  rate: 1000,
});

const layout = twinDescription({ kind: 'udp', host: '', port: 0 }).layout!;
const encode = encoderOf(layout, ['left', 'right']);

/** Frame n of the twin, which begins counting just before the wrap. */
export const twinFrame = (n: number): Uint8Array => encode(encodedRun(n * 10, 10, 2, (65_500 + n) % 65_536));

export const twinFrames = (from: number, to: number): Uint8Array =>
  Buffer.concat(Array.from({ length: to - from }, (_, i) => twinFrame(from + i)));
