import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Checksum, FieldType, FrameLayout } from '../../description.ts';
import { encoderOf } from '../encode.ts';
import type { Damage, Run } from '../run.ts';
import { frameCodec } from './frame-codec.ts';
import { frameLength } from './frame-length.ts';

const sums: readonly Checksum[] = [
  { kind: 'none' },
  { kind: 'sum8' },
  { kind: 'xor8', withSync: true },
  { kind: 'crc16', polynomial: 0x1021, initial: 0xffff, reflected: false, finalXor: 0, endian: 'big' },
  { kind: 'crc32' },
];

const layoutWith = (checksum: Checksum, endian: 'little' | 'big' = 'little'): FrameLayout => ({
  kind: 'frames',
  sync: 'a5 5a',
  endian,
  head: [{ role: 'counter', type: 'u16', wrapsAt: 65535 }],
  sample: [
    { role: 'channel', channel: 'left', type: 'i24' },
    { role: 'channel', channel: 'right', type: 'i16' },
  ],
  samples: 3,
  checksum,
});

const channels = ['left', 'right'];
/** Values that never hold the sync bytes by chance: 0 to 120 in every byte that varies. */
const frame = (counter: number): Run => ({
  counter,
  count: 3,
  values: Float64Array.from({ length: 6 }, (_, i) => (counter * 7 + i * 11) % 121),
});
const framesOf = (layout: FrameLayout, counters: readonly number[]) =>
  counters.map((n) => encoderOf(layout, channels)(frame(n)));

function read(layout: FrameLayout, bytes: Uint8Array, piece = 17, names = channels) {
  const runs: Run[] = [];
  const damage: Damage[] = [];
  const codec = frameCodec(layout, names, { run: (run) => runs.push(run), damage: (one) => damage.push(one) });
  for (let at = 0; at < bytes.length; at += piece) codec.feed(bytes.slice(at, at + piece));
  codec.end();
  const counted = (fault: Damage['fault']) =>
    damage.filter((one) => one.fault === fault).reduce((sum, { count }) => sum + count, 0);
  return {
    runs,
    damage,
    counters: runs.map(({ counter }) => counter),
    checksum: counted('checksum'),
    unreadable: counted('unreadable'),
  };
}

const upTo = (n: number) => Array.from({ length: n }, (_, i) => i);

describe('frames of bytes', () => {
  it.each(sums)('reads frames with checksum $kind in pieces of any size, both orders of bytes', (checksum) => {
    for (const endian of ['little', 'big'] as const) {
      const layout = layoutWith(checksum, endian);
      const bytes = Buffer.concat(framesOf(layout, upTo(20)));
      for (const piece of [1, 2, 7, 64, 5000]) {
        const { runs, damage } = read(layout, bytes, piece);
        expect(runs).toEqual(upTo(20).map(frame));
        expect(damage).toEqual([]);
      }
    }
  });

  it('reads every type at its limits, both orders of bytes', () => {
    // Outside truth: two's complement and IEEE 754 limits.
    const limits: Record<FieldType, readonly number[]> = {
      u8: [0, 255],
      i8: [-128, 127],
      u16: [0, 65535],
      i16: [-32768, 32767],
      u24: [0, 16777215],
      i24: [-8388608, 8388607],
      u32: [0, 4294967295],
      i32: [-2147483648, 2147483647],
      f32: [1.401298464324817e-45, 3.4028234663852886e38],
      f64: [Number.MIN_VALUE, Number.MAX_VALUE],
    };
    for (const endian of ['little', 'big'] as const) {
      for (const [type, values] of Object.entries(limits)) {
        const layout: FrameLayout = {
          ...layoutWith({ kind: 'crc32' }, endian),
          samples: 2,
          sample: [{ role: 'channel', channel: 'left', type: type as FieldType }],
        };
        const bytes = encoderOf(layout, ['left'])({ counter: 1, count: 2, values: Float64Array.from(values) });
        expect([...read(layout, bytes, 99, ['left']).runs[0]!.values]).toEqual(values);
      }
    }
  });

  it('lays bytes as the order says', () => {
    const layout = { ...layoutWith({ kind: 'none' }, 'big'), samples: 1, head: [] };
    const bytes = encoderOf(layout, channels)({ count: 1, values: Float64Array.of(0x010203, -2) });
    expect([...bytes]).toEqual([0xa5, 0x5a, 1, 2, 3, 0xff, 0xfe]);
  });

  it.each(sums.slice(1))('loses only the frames whose content was hit, with checksum $kind', (checksum) => {
    const layout = layoutWith(checksum);
    const frames = framesOf(layout, upTo(12));
    for (const n of [4, 7, 8]) frames[n]![6]! ^= 0x11;
    const { counters, checksum: wrong, unreadable } = read(layout, Buffer.concat(frames));
    expect(counters).toEqual([0, 1, 2, 3, 5, 6, 9, 10, 11]);
    expect([wrong, unreadable]).toEqual([3, 0]);
  });

  it('counts a frame with damaged sync bytes as unreadable', () => {
    const layout = layoutWith({ kind: 'crc32' });
    const frames = framesOf(layout, upTo(8));
    frames[3]![0] = 0;
    const { counters, checksum, unreadable } = read(layout, Buffer.concat(frames));
    expect(counters).toEqual([0, 1, 2, 4, 5, 6, 7]);
    expect([checksum, unreadable]).toEqual([0, 1]);
  });

  it.each(sums)('finds the next frame after bytes were cut out or came in between, with checksum $kind', (checksum) => {
    const layout = layoutWith(checksum);
    const frames = framesOf(layout, upTo(12)).map((one) => new Uint8Array(one));
    const cut = frames.map((one, n) => (n === 5 ? one.slice(0, 9) : one));
    const afterCut = read(layout, Buffer.concat(cut));
    expect(afterCut.counters).toEqual(upTo(12).filter((n) => n !== 5));
    expect(afterCut.checksum + afterCut.unreadable).toBe(1);
    const noise = [...frames.slice(0, 6), Uint8Array.of(1, 2, 3, 4, 5), ...frames.slice(6)];
    const between = read(layout, Buffer.concat(noise));
    // Without a checksum the frame before the noise cannot be trusted either.
    expect(between.counters).toEqual(checksum.kind === 'none' ? upTo(12).filter((n) => n !== 5) : upTo(12));
    expect(between.unreadable).toBe(1);
  });

  it('begins in the middle of a frame without calling it damage', () => {
    const layout = layoutWith({ kind: 'sum8' });
    const bytes = Buffer.concat(framesOf(layout, upTo(6))).subarray(7);
    const { counters, damage } = read(layout, bytes);
    expect(counters).toEqual([1, 2, 3, 4, 5]);
    expect(damage).toEqual([]);
  });

  it('refuses values that are no numbers', () => {
    const layout: FrameLayout = {
      ...layoutWith({ kind: 'crc32' }),
      samples: 1,
      sample: [{ role: 'channel', channel: 'left', type: 'f32' }],
    };
    const encode = encoderOf(layout, ['left']);
    const bytes = Buffer.concat(
      [Number.NaN, Number.POSITIVE_INFINITY, 1].map((value, counter) =>
        encode({ counter, count: 1, values: Float64Array.of(value) }),
      ),
    );
    const { counters, unreadable } = read(layout, bytes, 9, ['left']);
    expect(counters).toEqual([2]);
    expect(unreadable).toBe(2);
  });

  it('splits frames whose samples are counted singly', () => {
    const layout: FrameLayout = {
      ...layoutWith({ kind: 'crc32' }),
      head: [],
      sample: [
        { role: 'counter', type: 'u8' },
        { role: 'channel', channel: 'left', type: 'i16' },
      ],
    };
    const bytes = encoderOf(layout, ['left'])({ counter: 9, count: 3, values: Float64Array.of(5, 6, 7) });
    expect(read(layout, bytes, 50, ['left']).runs.map(({ counter, values }) => [counter, ...values])).toEqual([
      [9, 5],
      [10, 6],
      [11, 7],
    ]);
  });

  it('never gives a frame that was not sent, whatever is done to the bytes (crc32)', () => {
    const layout = layoutWith({ kind: 'crc32' });
    const sent = new Map(upTo(12).map((n) => [n, frame(n)]));
    const clean = Buffer.concat(framesOf(layout, upTo(12)));
    const edit = fc.record({
      at: fc.nat(clean.length - 1),
      remove: fc.nat(30),
      insert: fc.uint8Array({ maxLength: 30 }),
    });
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 4 }), fc.integer({ min: 1, max: 80 }), (edits, piece) => {
        let bytes: Uint8Array = clean;
        for (const { at, remove, insert } of edits)
          bytes = Buffer.concat([bytes.subarray(0, at), insert, bytes.subarray(at + remove)]);
        const { runs, damage } = read(layout, bytes, piece);
        for (const run of runs) expect(run).toEqual(sent.get(run.counter!));
        // At most the frames touched are lost; the last may lack its end.
        const touched = edits.reduce((sum, { remove }) => sum + 2 + Math.ceil(remove / frameLength(layout)), 0);
        expect(new Set(runs.map(({ counter }) => counter)).size).toBeGreaterThanOrEqual(12 - touched);
        expect(damage.every(({ count }) => count > 0)).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  it('survives any bytes with any checksum, and what it says does not depend on the pieces', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...sums),
        fc.array(fc.oneof(fc.constant(0xa5), fc.constant(0x5a), fc.nat(255)), { maxLength: 400 }),
        fc.integer({ min: 1, max: 60 }),
        (checksum, list, piece) => {
          const bytes = Uint8Array.from(list);
          const layout = layoutWith(checksum);
          expect(read(layout, bytes, piece)).toEqual(read(layout, bytes, 1000));
        },
      ),
      { numRuns: 400 },
    );
  });
});
