import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { longestText, type StreamFormat, streamFormats, valueBytes } from './protocol.ts';
import { SampleBytes, type SampleEncoding, type StreamSample, writeSamples } from './sample-bytes.ts';
import type { StreamFault } from './stream-fault.ts';

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex');
const bytesOf = (text: string) => Uint8Array.from(Buffer.from(text.replaceAll(' ', ''), 'hex'));
const plates: SampleEncoding = { format: 'float32', channels: 2, order: 'little' };

/** Reads bytes in pieces of one length. */
function readAll(bytes: Uint8Array, encoding: SampleEncoding, piece = bytes.length) {
  const samples: StreamSample[] = [];
  const faults: StreamFault[] = [];
  const reader = new SampleBytes(encoding, {
    sample: (time, values) =>
      samples.push(time === undefined ? { values: [...values] } : { time, values: [...values] }),
    fault: (fault) => faults.push(fault),
  });
  let most = 0;
  for (let at = 0; at < bytes.length; at += Math.max(1, piece)) {
    reader.feed(bytes.subarray(at, at + Math.max(1, piece)));
    most = Math.max(most, reader.held);
  }
  return { samples, faults, most };
}

describe('the bytes of a sample', () => {
  // The three of the methods reference: LS-01, LS-02 and LS-03 of its check values for export and streaming.
  const documented: [string, StreamSample, SampleEncoding, string][] = [
    ['LS-01', { time: 123456.789, values: [0, -1] }, plates, '02 c976be9f0c24fe40 00000000 000080bf'],
    ['LS-02', { values: [0, -1] }, plates, '01 00000000 000080bf'],
    ['LS-03', { values: ['ab'] }, { format: 'string', channels: 1, order: 'little' }, '01 02 61 62'],
  ];
  it.each(documented)('%s is written and read as documented', (id, sample, encoding, text) => {
    // LS-03 is the text alone: width and length of its length, then its bytes; a tag stands before it in a sample.
    const expected = id === 'LS-03' ? `01 ${text}` : text;
    expect(hex(writeSamples([sample], encoding))).toBe(expected.replaceAll(' ', ''));
    expect(readAll(bytesOf(expected), encoding)).toMatchObject({ samples: [sample], faults: [] });
  });

  it('turns the bytes of every number round for the other order', () => {
    const sample = { time: 123456.789, values: [0, -1] };
    expect(hex(writeSamples([sample], { ...plates, order: 'big' }))).toBe('0240fe240c9fbe76c900000000bf800000');
    expect(readAll(bytesOf('02 40fe240c9fbe76c9 00000000 bf800000'), { ...plates, order: 'big' }).samples).toEqual([
      sample,
    ]);
  });

  const values: Readonly<Record<StreamFormat, fc.Arbitrary<number | string>>> = {
    float32: fc.float({ noNaN: true }),
    double64: fc.double({ noNaN: true }),
    int32: fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
    int16: fc.integer({ min: -32_768, max: 32_767 }),
    int8: fc.integer({ min: -128, max: 127 }),
    int64: fc.maxSafeInteger(),
    string: fc.string({ unit: 'grapheme', maxLength: 400 }),
  };
  it.each(streamFormats)('%s comes back as it was sent, in both orders and in pieces of any size', (format) => {
    const samples = fc.integer({ min: 1, max: 5 }).chain((channels) =>
      fc.record({
        channels: fc.constant(channels),
        order: fc.constantFrom('little' as const, 'big' as const),
        piece: fc.integer({ min: 1, max: 40 }),
        sent: fc.array(
          fc.record({
            time: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true }), { nil: undefined }),
            values: fc.array(values[format], { minLength: channels, maxLength: channels }),
          }),
          { minLength: 1, maxLength: 6 },
        ),
      }),
    );
    fc.assert(
      fc.property(samples, ({ channels, order, piece, sent }) => {
        const encoding = { format, channels, order };
        const plain = sent.map(({ time, values: given }) => ({
          ...(time === undefined ? {} : { time }),
          values: given.map((one) => (Object.is(one, -0) && format !== 'float32' && format !== 'double64' ? 0 : one)),
        }));
        const read = readAll(writeSamples(plain, encoding), encoding, piece);
        expect(read.faults).toEqual([]);
        expect(read.samples).toEqual(plain);
      }),
      { numRuns: 60 },
    );
  });

  it('waits for the rest of a sample that is cut anywhere', () => {
    const bytes = writeSamples([{ time: 1, values: [2, 3] }], plates);
    for (let length = 0; length < bytes.length; length++) {
      const { samples, faults, most } = readAll(bytes.subarray(0, length), plates);
      expect([samples.length, faults.length, most]).toEqual([0, 0, length]);
    }
  });

  it('stops at whatever is no sample, by a code, and reads nothing after it', () => {
    const good = writeSamples([{ time: 1, values: [2, 3] }], plates);
    const text: SampleEncoding = { format: 'string', channels: 1, order: 'little' };
    const bad: [string, SampleEncoding][] = [
      ['00', plates],
      ['03 00', plates],
      ['02 000000000000f07f', plates],
      ['02 000000000000f87f', plates],
      ['01 00 61', text],
      ['01 03 610000', text],
      ['01 04 ffffffff', text],
      ['01 08 ffffffffffffffff', text],
    ];
    for (const [start, encoding] of bad) {
      const bytes = Uint8Array.from([...bytesOf(start), ...good, ...good]);
      const { samples, faults } = readAll(bytes, encoding, 1);
      expect(
        faults.map(({ code }) => code),
        start,
      ).toEqual(['stream-sample-unreadable']);
      expect(samples, start).toEqual([]);
    }
  });

  it('holds no more than one unfinished sample, whatever a stranger sends', () => {
    const text: SampleEncoding = { format: 'string', channels: 3, order: 'little' };
    const most = 9 + 3 * (9 + longestText);
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 4000 }), fc.integer({ min: 1, max: 300 }), (bytes, piece) => {
        expect(readAll(bytes, text, piece).most).toBeLessThanOrEqual(most);
        expect(readAll(bytes, plates, piece).most).toBeLessThanOrEqual(9 + 2 * valueBytes.float32);
      }),
      { numRuns: 200 },
    );
    // Longest texts, never finished: 200 kB go in, no more than the bound is held.
    const endless = Uint8Array.from([1, 4, 0, 0, 1, 0, ...new Uint8Array(65_535)]);
    expect(readAll(endless, text, 1000)).toMatchObject({ samples: [], faults: [], most: endless.length });
  });
});
