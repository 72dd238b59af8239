import { describe, expect, it } from 'vitest';
import type { Run } from '../sources/codec/run.ts';
import { Feed } from './feed.ts';

const info = { format: 'float32', channelCount: 2, rate: 1000 } as const;
const head =
  'LSL/110 200 OK\r\nUID: u\r\nByte-Order: 1234\r\nSuppress-Subnormals: 0\r\nData-Protocol-Version: 110\r\n\r\n';

/** Bytes of a sample, written here once more and by hand. */
function sample(time: number | undefined, ...values: number[]): Buffer {
  const bytes = Buffer.alloc((time === undefined ? 1 : 9) + 4 * values.length);
  bytes.writeUInt8(time === undefined ? 1 : 2);
  if (time !== undefined) bytes.writeDoubleLE(time, 1);
  values.forEach((value, i) => {
    bytes.writeFloatLE(value, bytes.length - 4 * (values.length - i));
  });
  return bytes;
}
/** The same sample with the bytes of each number the other way round. */
const turnedRound = (bytes: Buffer) =>
  Buffer.concat([
    bytes.subarray(0, 1),
    Buffer.from(bytes.subarray(1, 9)).swap64(),
    Buffer.from(bytes.subarray(9)).swap32(),
  ]);
const patterns = [sample(123456.789, 4, -5), sample(123456.789, 2, -3)];

function fed(bytes: Buffer, piece = bytes.length) {
  const told: unknown[] = [];
  const runs: Run[] = [];
  const feed = new Feed(info, {
    opened: ({ order }) => told.push(['opened', order]),
    run: (run) => runs.push(run),
    damage: ({ fault, count }) => told.push([fault, count]),
    fault: ({ code }) => told.push(code),
  });
  for (let at = 0; at < bytes.length; at += piece) feed.feed(bytes.subarray(at, at + piece));
  return { told, runs };
}

const valuesOf = (runs: readonly Run[]) => runs.flatMap(({ values }) => [...values]);

describe('what comes on the connection for samples', () => {
  const samples = [sample(10, 1, 2), sample(undefined, 3, 4), sample(undefined, 5, 6), sample(20, 7, 8)];
  const whole = Buffer.concat([Buffer.from(head), ...patterns, ...samples]);

  it('is the answer, two patterns, and runs from one time stamp to the next', () => {
    const { told, runs } = fed(whole);
    expect(told).toEqual([['opened', 'little']]);
    expect(runs).toEqual([
      { time: 10, count: 3, values: Float64Array.of(1, 2, 3, 4, 5, 6) },
      { time: 20, count: 1, values: Float64Array.of(7, 8) },
    ]);
  });

  it('is the same in pieces of any size', () => {
    for (let piece = 1; piece < 60; piece++) {
      const { told, runs } = fed(whole, piece);
      expect(told).toEqual([['opened', 'little']]);
      expect(valuesOf(runs)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
      expect(runs.flatMap(({ time }) => time ?? [])).toEqual([10, 20]);
    }
  });

  it('is nothing to read where the patterns are others than agreed: another order, another width, none', () => {
    const wrong: Buffer[][] = [
      [sample(123456.788, 4, -5)],
      [turnedRound(patterns[0]!)],
      [patterns[0]!, sample(10, 1, 2)],
      [sample(undefined, 4, -5)],
    ];
    for (const one of wrong) {
      const { told, runs } = fed(Buffer.concat([Buffer.from(head), ...one, ...samples]));
      expect(['stream-pattern-wrong', 'stream-sample-unreadable']).toContain(told[0]);
      expect([told.length, runs.length]).toEqual([1, 0]);
    }
  });

  it('says by a code why the sender refuses', () => {
    expect(fed(Buffer.from('LSL/110 404 Not found\r\n\r\n')).told).toEqual(['stream-not-there']);
    expect(fed(Buffer.from('LSL/110 505 Version not supported\r\n\r\n')).told).toEqual(['stream-version-refused']);
    expect(fed(Buffer.from('HTTP/1.1 200 OK\r\n\r\n')).told).toEqual(['stream-header-unreadable']);
    expect(fed(Buffer.alloc(20_000, 65), 1000).told).toEqual(['stream-message-too-long']);
  });

  it('tells a value that is no number as damage, and the next sample says its time anew', () => {
    const bytes = Buffer.concat([
      Buffer.from(head),
      ...patterns,
      sample(10, 1, 2),
      sample(undefined, Number.NaN, 4),
      sample(undefined, 5, 6),
    ]);
    const { told, runs } = fed(bytes);
    expect(told).toEqual([
      ['opened', 'little'],
      ['unreadable', 1],
    ]);
    expect(runs.map(({ count }) => count)).toEqual([1, 1]);
    expect(runs[0]?.time).toBe(10);
    expect(runs[1]?.time).toBeCloseTo(10.002, 9);
  });

  it('keeps what was whole before bytes that are no sample, and reads nothing after them', () => {
    const bytes = Buffer.concat([
      Buffer.from(head),
      ...patterns,
      sample(10, 1, 2),
      Buffer.from([9, 9]),
      sample(11, 3, 4),
    ]);
    for (const piece of [bytes.length, 1]) {
      const { told, runs } = fed(bytes, piece);
      expect(told).toEqual([['opened', 'little'], 'stream-sample-unreadable']);
      expect(valuesOf(runs)).toEqual([1, 2]);
    }
  });
});
