import { simulatePull } from '@sthene/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { encoderOf } from '../codec/index.ts';
import { parseSourceDescription } from '../description/index.ts';
import type { Checksum, FieldType, FrameLayout, LineLayout } from '../description.ts';
import { recogniseLayout } from './recognise.ts';
import { withLayout } from './with-layout.ts';

const pull = simulatePull({ plateNoise: 0.8 }, 7);
/** Two plates in steps of 0.1 N, standing and pulling. */
const counts = (n: number): [number, number] => [
  Math.round(pull.left[1500 + 5 * n]! * 10),
  Math.round(pull.right[1500 + 5 * n]! * 10),
];

const frames = (
  type: FieldType,
  counter: FieldType | undefined,
  samples: number,
  checksum: Checksum,
  endian: 'little' | 'big' = 'little',
): FrameLayout => ({
  kind: 'frames',
  sync: 'a5 5a',
  endian,
  head: counter === undefined ? [] : [{ role: 'counter', type: counter, wrapsAt: 2 ** Number(counter.slice(1)) - 1 }],
  sample: [
    { role: 'channel', channel: 'channel 1', type },
    { role: 'channel', channel: 'channel 2', type },
  ],
  samples,
  checksum,
});

function bytesOf(layout: FrameLayout, step = 1, count = 300): Uint8Array {
  const encode = encoderOf(layout, ['channel 1', 'channel 2']);
  const limit = layout.head.length === 0 ? 1 : ((layout.head[0] as { wrapsAt?: number }).wrapsAt ?? 0) + 1;
  const all = Array.from({ length: count }, (_, n) =>
    encode({
      counter: (40_000 + n * step) % limit,
      count: layout.samples,
      values: Float64Array.from(
        Array.from({ length: layout.samples }, (__, i) => counts(n * layout.samples + i)).flat(),
      ),
    }),
  );
  // Begins in the middle of a frame.
  return Buffer.concat(all).subarray(5);
}

const crc: Checksum = { kind: 'crc16', polynomial: 0x1021, initial: 0xffff, reflected: false, finalXor: 0 };

describe('recognising frames', () => {
  it.each<[string, FrameLayout]>([
    ['16-bit numbers, a 16-bit counter, a CRC-16', frames('i16', 'u16', 1, crc)],
    ['24-bit numbers, big end first, an 8-bit counter, a sum', frames('i24', 'u8', 1, { kind: 'sum8' }, 'big')],
    ['32-bit floats, a 32-bit counter, a CRC-32', frames('f32', 'u32', 1, { kind: 'crc32' })],
    ['24-bit numbers without a counter or a checksum', frames('i24', undefined, 1, { kind: 'none' })],
  ])('with %s', (_name, layout) => {
    const [best] = recogniseLayout(bytesOf(layout));
    expect(best?.layout).toEqual(layout);
    expect(best!.fits).toBeGreaterThan(0.9);
    for (const reason of best!.reasons) expect(reason).toMatch(/^[A-Z].*\.$/u);
  });

  it('sees several samples in a frame that is counted, and offers one sample of all its numbers as well', () => {
    const layout = frames('i24', 'u16', 10, { kind: 'sum8' });
    const [best, other, ...rest] = recogniseLayout(bytesOf(layout, 1, 40));
    expect(best?.layout).toEqual(layout);
    expect(best!.reasons.at(-1)).toContain('10 samples of 2 numbers');
    expect(other?.channels).toHaveLength(20);
    expect(rest).toEqual([]);
  });

  it('sees several samples in a frame when the counter counts them', () => {
    const layout = frames('i16', 'u16', 5, { kind: 'xor8' });
    const [best] = recogniseLayout(bytesOf(layout, 5, 200));
    expect(best?.layout).toEqual({ ...layout, head: [{ ...layout.head[0], step: 5 }] });
  });

  it('makes a description that the door lets in', () => {
    const [best] = recogniseLayout(bytesOf(frames('i16', 'u16', 1, crc)));
    const description = withLayout(
      {
        schema: 'sthene.source/1',
        name: 'Found',
        transport: { kind: 'serial', path: '/dev/ttyUSB0', baudRate: 115200 },
        channels: [{ name: 'x', plate: 'left', side: 'left', axis: 'z', unit: 'N', scale: 0.1, offset: 3 }],
        rate: 1000,
      },
      best!,
    );
    expect(parseSourceDescription(description)).toEqual({ ok: true, description });
    expect(description.channels.map(({ name, scale }) => [name, scale])).toEqual([
      ['x', 0.1],
      ['channel 2', 1],
    ]);
  });
});

describe('recognising lines', () => {
  const lines = (write: (n: number, left: number, right: number) => string, count = 200) =>
    new TextEncoder().encode(
      Array.from({ length: count }, (_, n) => write(n, counts(n)[0] / 10, counts(n)[1] / 10)).join('\r\n'),
    );
  const fieldsOf = (bytes: Uint8Array) => {
    const [best] = recogniseLayout(bytes);
    const layout = best?.layout as LineLayout;
    return [layout.delimiter, layout.decimal, layout.fields];
  };
  const two = [
    { role: 'channel', channel: 'channel 1' },
    { role: 'channel', channel: 'channel 2' },
  ];

  it('with commas and a counter that wraps', () => {
    expect(fieldsOf(lines((n, l, r) => `${(950 + n) % 1000},${l},${r}`))).toEqual([
      ',',
      undefined,
      [{ role: 'counter', wrapsAt: 999 }, ...two],
    ]);
  });

  it('with semicolons and decimal commas', () => {
    const text = lines((n, l, r) => `${(n / 1000).toFixed(4)};${l.toFixed(1)};${r.toFixed(1)}`.replaceAll('.', ','));
    expect(fieldsOf(text)).toEqual([';', ',', [{ role: 'time', unit: 's' }, ...two]]);
  });

  it('with tabs, blanks, words, and a lone number', () => {
    expect(fieldsOf(lines((_n, l, r) => `${l}\t${r}`))).toEqual(['\t', undefined, two]);
    expect(fieldsOf(lines((n, l, r) => `  ${n}   ${l} ${r}`))).toEqual([' ', undefined, [{ role: 'counter' }, ...two]]);
    expect(fieldsOf(lines((_n, l) => `ST,GS,${l},kg`))).toEqual([
      ',',
      undefined,
      [{ role: 'ignore' }, { role: 'ignore' }, two[0], { role: 'ignore' }],
    ]);
    expect(fieldsOf(lines((_n, l) => `${l}`))[2]).toEqual([two[0]]);
  });
});

describe('recognising anything', () => {
  it('proposes nothing for noise, silence, prose and nothing', () => {
    const noise = Uint8Array.from({ length: 8000 }, (_, i) => Math.imul(i + 1, 2654435761) >>> 24);
    for (const bytes of [
      new Uint8Array(0),
      new Uint8Array(5000),
      new Uint8Array(5000).fill(255),
      new TextEncoder().encode('The club rows at six.\n'.repeat(50)),
    ]) {
      expect(recogniseLayout(bytes)).toEqual([]);
    }
    expect(recogniseLayout(noise).length).toBeLessThanOrEqual(1);
  });

  it('ends soon and without a throw for any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 600 }), fc.nat(40), (bytes, repeat) => {
        const all = Buffer.concat(Array.from({ length: repeat }, () => bytes));
        for (const { fits, channels } of recogniseLayout(all)) {
          expect(fits).toBeGreaterThan(0);
          expect(fits).toBeLessThanOrEqual(1);
          expect(channels.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 60 },
    );
  });
});
