import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Packet, SamplesPacket } from '../packets/packet.ts';
import { encodeFrame, readFrame } from './frame.ts';
import { bodiesOf, packetOf } from './packet-frames.ts';
import { encodedHeader } from './testing/encoded.ts';

const at = 123_456_789_012_345n as MonotonicNanoseconds;

function throughBytes(packet: Packet): (Packet | undefined)[] {
  return bodiesOf(packet, 77).map((body, i) => {
    const bytes = encodeFrame({ ...body, tag: 9, sequence: i });
    const found = readFrame(bytes, 0);
    if (!found.ok) throw new Error(found.fault);
    expect(found.end).toBe(bytes.length);
    return packetOf(found.frame);
  });
}

const samples = (values: Float64Array, more: Partial<SamplesPacket> = {}): SamplesPacket => ({
  kind: 'samples',
  first: 40,
  count: values.length,
  values,
  at,
  ...more,
});

describe('packets as frames', () => {
  it('come back equal, whatever their kind', () => {
    const wallClock = '2026-03-14T09:00:05.000Z' as UtcInstant;
    const packets: Packet[] = [
      encodedHeader(3, 500, at),
      samples(Float64Array.of(1, -2, 3), { deviceTime: 0.125 }),
      samples(Float64Array.of(1, -2, 3)),
      { kind: 'gap', first: 8, count: 3, cause: 'stall', at },
      { kind: 'fault', fault: 'doubled', count: 2, near: 11, at },
      { kind: 'status', state: 'quiet', words: 'Nothing comes from plate “A”.', at },
      { kind: 'mark', sample: 12.5, label: 'cue', data: { trial: 'fw-7', turn: 2 }, at },
      { kind: 'mark', sample: 12, label: 'phase', at },
      { kind: 'clock', sample: 5000, at, wallClock, measuredRate: 1000.2, rateUncertainty: 0.1, wallStep: -3600 },
      { kind: 'end', samples: 100, gaps: 1, missing: 3, at },
    ];
    for (const packet of packets) expect(throughBytes(packet)).toEqual([packet]);
  });

  it('keep every double bit for bit', () => {
    const bits = (values: Float64Array) => [...new BigUint64Array(values.buffer, values.byteOffset, values.length)];
    const exact = (values: Float64Array) => {
      const [back] = throughBytes(samples(values));
      expect(back?.kind === 'samples' && bits(back.values)).toEqual(bits(values));
    };
    exact(Float64Array.of(0, -0, Number.NaN, Number.POSITIVE_INFINITY, Number.MIN_VALUE));
    exact(Float64Array.of(-0));
    fc.assert(fc.property(fc.float64Array({ minLength: 1, maxLength: 20 }), exact));
    fc.assert(fc.property(fc.array(fc.integer(), { minLength: 1, maxLength: 20 }), (v) => exact(Float64Array.from(v))));
    fc.assert(fc.property(fc.float32Array({ minLength: 1, maxLength: 20 }), (v) => exact(Float64Array.from(v))));
  });

  it('take two bytes for counts of 16 bits, four for 32 and for floats, eight for the rest', () => {
    const width = (...values: number[]) =>
      ((bodiesOf(samples(Float64Array.from(values)), 0)[0]?.payload.length ?? 0) - 8) / values.length;
    expect(width(-32768, 32767)).toBe(2);
    expect(width(-32769, 0)).toBe(4);
    expect(width(0.5, 1)).toBe(4);
    expect(width(16777217, 0)).toBe(4);
    expect(width(0.1, 1)).toBe(8);
    expect(width(16777217, 0.5)).toBe(8);
  });

  it('split a run too long for one frame', () => {
    const values = Float64Array.from({ length: 3 * 300_000 }, (_, i) => i + 0.1);
    const pieces = throughBytes(samples(values, { count: 300_000, deviceTime: 5 })) as SamplesPacket[];
    expect(pieces.length).toBeGreaterThan(1);
    expect(pieces[0]?.deviceTime).toBe(5);
    expect(pieces[1]?.deviceTime).toBeUndefined();
    let next = 40;
    for (const { first, count, values: piece } of pieces) {
      expect(first).toBe(next);
      next += count;
      for (let c = 0; c < 3; c++) expect(piece[c * count]).toBe(values[c * 300_000 + first - 40]);
    }
    expect(next).toBe(300_040);
  });

  it('are refused when the payload breaks a rule', () => {
    const text = (json: string) => new TextEncoder().encode(json);
    expect(packetOf({ kind: 'gap', sample: 0, at, payload: text('{"count":"3","cause":"lost"}') })).toBeUndefined();
    expect(packetOf({ kind: 'mark', sample: 0, at, payload: text('[]') })).toBeUndefined();
    expect(packetOf({ kind: 'mark', sample: 0, at, payload: text('{') })).toBeUndefined();
    expect(packetOf({ kind: 'samples', sample: 0, at, payload: new Uint8Array(9) })).toBeUndefined();
    expect(packetOf({ kind: 'closing', sample: 0, at, payload: text('{}') })).toBeUndefined();
  });
});
