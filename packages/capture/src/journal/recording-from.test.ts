import type { MonotonicNanoseconds, Recording, UtcInstant } from '@sthene/core';
import { bytesOf, parquetFormat } from '@sthene/formats';
import { describe, expect, it } from 'vitest';
import type { Packet } from '../packets/packet.ts';
import { recentBuffer } from './recent-buffer.ts';
import { recordingFrom } from './recording-from.ts';
import { encodedHeader, encodedSamples, encodedValue } from './testing/encoded.ts';

const at = 0n as MonotonicNanoseconds;
const wall = (text: string) => text as UtcInstant;

const stream = (): Packet[] => [
  encodedHeader(),
  { kind: 'clock', sample: 0, at, wallClock: wall('2026-03-14T09:00:00.000Z') },
  encodedSamples(0, 1000),
  { kind: 'gap', first: 1000, count: 20, cause: 'lost', at },
  encodedSamples(1020, 980),
  { kind: 'mark', sample: 1500, label: 'cue', at },
  encodedSamples(2000, 1000),
];

function made(packets: Iterable<Packet>, start: number, end: number): Recording {
  const outcome = recordingFrom(packets, { start, end });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

describe('a recording from packets', () => {
  it('holds every sample as received, its gaps, marks, calibration and time', () => {
    const got = made(stream(), 500, 2500);
    expect(got).toMatchObject({
      sampleRate: 1000,
      rateOrigin: 'declared',
      sampleCount: 2000,
      gaps: [{ start: 500, end: 520 }],
      events: [{ label: 'cue', time: 1 }],
      recordedAt: '2026-03-14T09:00:00.500Z',
      notices: [],
    });
    for (const [c, { raw, scale, offset, unit }] of got.channels.entries()) {
      expect([scale, offset, unit]).toEqual([0.25, 3, 'N']);
      for (let i = 0; i < 2000; i++) {
        if (i >= 500 && i < 520) expect(raw[i]).toBeNaN();
        else if (raw[i] !== encodedValue(500 + i, c)) throw new Error(`sample ${i} of channel ${c}`);
      }
    }
    expect(JSON.parse(got.facts.plates as string)[1]).toEqual({
      name: 'c1',
      plate: 'plate 1',
      side: 'right',
      axis: 'z',
    });
  });

  it('survives the way through its Parquet file', async () => {
    const got = made(stream(), 500, 2500);
    const write = parquetFormat.write as NonNullable<typeof parquetFormat.write>;
    const bytes = await write(got);
    const back = await parquetFormat.read(bytesOf(bytes), {});
    expect(back.ok && back.recordings[0]?.recording).toEqual(got);
    expect(await write(made(stream(), 500, 2500))).toEqual(bytes);
  });

  it('is the same from the buffer of the last minute, and from a longer stream', () => {
    const buffer = recentBuffer();
    for (const packet of stream()) buffer.push(packet);
    const whole = made(stream(), 1400, 2100);
    expect(made([...stream(), encodedSamples(3000, 50)], 1400, 2100)).toEqual(whole);
    const kept = made(buffer.keep(1400, 2100), 1400, 2100);
    expect({ ...kept, recordedAt: '' }).toEqual({ ...whole, recordedAt: '' });
  });

  it('keeps the first of two copies, whatever the order of runs', () => {
    const late = encodedSamples(10, 10);
    late.values.fill(-1);
    const got = made([encodedHeader(), encodedSamples(0, 15), late], 0, 20);
    expect(got.channels[0]?.raw[14]).toBe(encodedValue(14, 0));
    expect(got.channels[0]?.raw[15]).toBe(-1);
    const swapped = made([encodedHeader(), encodedSamples(10, 10), encodedSamples(0, 10)], 0, 20);
    expect(swapped.gaps).toEqual([]);
    expect(swapped.channels[1]?.raw[3]).toBe(encodedValue(3, 1));
  });

  // analysis.md, section 1: the promised rate when the true rate is within 0.05 %, else the measured one; above 0.5 % a warning.
  it.each([
    [1000.4, 0.01, 1000, []],
    [1000.6, 0.01, 1000.6, ['rate-measured']],
    [995, 0.01, 995, ['rate-measured']],
    [994.9, 0.01, 994.9, ['rate-not-as-declared']],
    [990, 5, 1000, []],
  ])('measured at %d Hz (to %d) has the rate %d', (measuredRate, rateUncertainty, want, codes) => {
    const wallClock = wall('2026-03-14T09:00:05.000Z');
    const clock: Packet = { kind: 'clock', sample: 2900, at, wallClock, measuredRate, rateUncertainty };
    const got = made([...stream(), clock], 0, 3000);
    expect(got.sampleRate).toBe(want);
    expect(got.measuredRate).toBe(measuredRate);
    expect(got.notices.map(({ code }) => code)).toEqual(codes);
  });

  it('leaves out samples of other channels and says so', () => {
    const got = made([encodedHeader(), encodedSamples(0, 10), encodedHeader(3), encodedSamples(10, 10, 3)], 0, 20);
    expect(got.gaps).toEqual([{ start: 10, end: 20 }]);
    expect(got.notices.map(({ code }) => code)).toEqual(['channels-changed']);
  });

  it('gives a reason where there is nothing', () => {
    expect(recordingFrom([], { start: 0, end: 10 })).toEqual({ ok: false, reason: 'no-force-channel' });
    expect(recordingFrom(stream(), { start: 1000, end: 1020 })).toEqual({ ok: false, reason: 'recording-too-short' });
    expect(recordingFrom(stream(), { start: 9000, end: 9020 })).toEqual({ ok: false, reason: 'recording-too-short' });
  });
});

describe('the buffer of the last minute', () => {
  it('holds at least a minute and not much more', () => {
    const buffer = recentBuffer(60);
    buffer.push(encodedHeader(1, 1000));
    for (let i = 0; i < 20_000; i++) {
      buffer.push(encodedSamples(i * 10, 10, 1));
      if (i % 100 === 0) buffer.push({ kind: 'mark', sample: i * 10, label: `m${i}`, at });
    }
    expect(buffer.span()).toEqual({ start: 140_000, end: 200_000 });
    const kept = buffer.keep(0, 200_000);
    const samples = kept.flatMap((packet) => (packet.kind === 'samples' ? [packet] : []));
    expect(samples[0]?.first).toBeLessThanOrEqual(140_000);
    expect(samples[0]?.first).toBeGreaterThan(139_900);
    expect(kept.filter(({ kind }) => kind === 'mark').length).toBe(60);
    expect(kept[0]?.kind).toBe('header');
  });

  it('cuts runs to the samples asked for', () => {
    const buffer = recentBuffer(60);
    buffer.push(encodedHeader());
    for (let i = 0; i < 10; i++) buffer.push(encodedSamples(i * 100, 100));
    const kept = buffer.keep(250, 351).filter((packet) => packet.kind === 'samples');
    expect(kept.map(({ first, count }) => [first, count])).toEqual([
      [250, 50],
      [300, 51],
    ]);
    expect(kept[0]?.values[50]).toBe(encodedValue(250, 1));
  });

  it('forgets nothing while the source is silent', () => {
    const buffer = recentBuffer(60);
    buffer.push(encodedHeader());
    buffer.push(encodedSamples(0, 100));
    for (let i = 0; i < 500; i++) buffer.push({ kind: 'status', state: 'quiet', words: '', at });
    expect(buffer.keep(0, 100).some(({ kind }) => kind === 'samples')).toBe(true);
  });
});
