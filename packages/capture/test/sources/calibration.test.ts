import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { recordingFrom } from '../../src/journal/recording-from.ts';
import type { Packet } from '../../src/packets/packet.ts';
import { byteSource } from '../../src/sources/byte-source.ts';
import { calibrated } from '../../src/sources/calibration/calibrated.ts';
import { parseSourceDescription } from '../../src/sources/description/index.ts';
import type { CalibrationDescription, SourceDescription } from '../../src/sources/description.ts';
import type { Link } from '../../src/sources/link.ts';
import { Heard } from '../../src/sources/listen/heard.ts';
import { rigSource } from '../../src/sources/rig/rig-source.ts';
import type { Source } from '../../src/sources/source.ts';
import { collector, machineClock } from './collect.ts';
import { of } from './twin-bench.ts';
import { twinDescription, twinFrame, twinFrames } from './twin-description.ts';

/** The twin's two raw channels as signals of one plate: Fz = 2 left - right, Mx = 3 right. */
const twin = twinDescription({ kind: 'tcp', mode: 'connect', host: '127.0.0.1', port: 4001 });
const description: SourceDescription = {
  ...twin,
  channels: twin.channels.map((channel) => ({ ...channel, axis: 'other', unit: '1', rawRange: [-(2 ** 31), 4000] })),
  calibration: [
    {
      signals: ['left', 'right'],
      matrix: [
        [2, -1],
        [0, 3],
      ],
      channels: [
        { name: 'Fz', plate: 'plate', side: 'none', axis: 'z', unit: 'N' },
        { name: 'Mx', plate: 'plate', side: 'none', axis: 'mx', unit: 'N.m' },
      ],
    },
  ],
};

/** Everything that comes out when these bytes come in, in pieces that end anywhere. */
async function heard(bytes: Uint8Array): Promise<Packet[]> {
  const packets: Packet[] = [];
  const link: Link = {
    async start(events) {
      events.opened();
      for (let at = 0; at < bytes.length; at += 101) events.bytes(bytes.subarray(at, at + 101));
    },
    async stop() {},
  };
  const source = byteSource(
    description,
    { id: 'twin', clock: machineClock },
    { link, reorderWindow: 0, startsWhole: true },
  );
  await source.start((packet) => packets.push(packet));
  await source.stop();
  return packets;
}

describe('a calibration over the wire', () => {
  it('is a description that the door lets in', () => {
    expect(parseSourceDescription(description)).toEqual({ ok: true, description });
  });

  it('makes of each sample of the twin what stands beside it, and nothing of samples that are missing', async () => {
    const damaged = twinFrame(20).slice();
    damaged[10]! ^= 1;
    // Frames 0 to 9, 12 to 19 (two lost), 20 (a bit error), 21 to 40.
    const packets = await heard(Buffer.concat([twinFrames(0, 10), twinFrames(12, 20), damaged, twinFrames(21, 41)]));
    const [header] = of(packets, 'header');
    expect(header?.channels.map(({ name, axis, madeOf }) => [name, axis, madeOf])).toEqual([
      ['left', 'other', undefined],
      ['right', 'other', undefined],
      [
        'Fz',
        'z',
        [
          { channel: 'left', factor: 2 },
          { channel: 'right', factor: -1 },
        ],
      ],
      ['Mx', 'mx', [{ channel: 'right', factor: 3 }]],
    ]);
    expect(of(packets, 'gap').map(({ first, count }) => [first, count])).toEqual([
      [100, 20],
      [200, 10],
    ]);
    let seen = 0;
    for (const { first, count, values } of of(packets, 'samples')) {
      expect(values).toHaveLength(4 * count);
      for (let i = 0; i < count; i++) {
        // The twin's sample n is 16 n on the left and 16 n + 1 on the right, so Fz = 16 n - 1 and Mx = 48 n + 3.
        const n = 16 * (first + i);
        expect([0, 1, 2, 3].map((c) => values[c * count + i])).toEqual([n, n + 1, n - 1, 3 * n + 3]);
        seen++;
      }
    }
    expect(seen).toBe(380);
  });

  it('is in the recording with its signals, and the recording says what was made of what', async () => {
    const packets = await heard(Buffer.concat([twinFrames(0, 3), twinFrames(5, 8)]));
    const read = recordingFrom(packets, { start: 0, end: 80 });
    if (!read.ok) throw new Error(read.reason);
    const { channels, gaps, facts } = read.value;
    // By hand, of the ranges -2147483648 to 4000: 2 a - b is least at the low end of a and the high end of b, and so on.
    expect(channels.map(({ name, unit, rawRange }) => [name, unit, rawRange])).toEqual([
      ['left', '1', [-2147483648, 4000]],
      ['right', '1', [-2147483648, 4000]],
      ['Fz', 'N', [-4294971296, 2147491648]],
      ['Mx', 'N.m', [-6442450944, 12000]],
    ]);
    expect(gaps).toEqual([{ start: 30, end: 50 }]);
    expect([29, 30, 49, 50].map((n) => channels[2]!.raw[n])).toEqual([16 * 29 - 1, Number.NaN, Number.NaN, 799]);
    expect(JSON.parse(facts.calibration ?? '')).toEqual([
      {
        name: 'Fz',
        madeOf: [
          { channel: 'left', factor: 2 },
          { channel: 'right', factor: -1 },
        ],
      },
      { name: 'Mx', madeOf: [{ channel: 'right', factor: 3 }] },
    ]);
  });

  it('shows a made channel at its limit where a signal of it is', async () => {
    const limits = async (frames: number) => {
      const ear = new Heard();
      for (const packet of await heard(twinFrames(0, frames))) ear.take(packet);
      return ear.view().channels.map(({ channel, saturated }) => [channel.name, saturated]);
    };
    // 4000 is the upper end of both signals: the right one, 16 n + 1, passes it at n = 250; the left one, 16 n, reaches it there.
    expect(await limits(25)).toEqual([
      ['left', false],
      ['right', false],
      ['Fz', false],
      ['Mx', false],
    ]);
    expect(await limits(26)).toEqual([
      ['left', true],
      ['right', true],
      ['Fz', true],
      ['Mx', true],
    ]);
  });
});

describe('a rig of several calibrated sources', () => {
  const calibration = (factor: number): CalibrationDescription => ({
    signals: ['bridge'],
    matrix: [[factor]],
    channels: [{ name: 'Fz', plate: 'plate', side: 'none', axis: 'z', unit: 'N' }],
  });

  /** A plate whose one bridge measures the time, in s, on a clock moved by hand. */
  function bridge(id: string, rate: number, factor: number, clock: { now: number }) {
    const at = () => BigInt(Math.round(clock.now * 1e9)) as MonotonicNanoseconds;
    let hand: ((packet: Packet) => void) | undefined;
    let next = 0;
    const source: Source = {
      id,
      async start(emit) {
        hand = calibrated([calibration(factor)], emit);
        hand({
          ...{ kind: 'header', source: id, promisedRate: 1000, at: at() },
          channels: [{ name: 'bridge', plate: id, side: 'none', axis: 'other', unit: 'mV/V', scale: 1, offset: 0 }],
          wallClock: '2026-03-28T09:00:00Z' as UtcInstant,
        });
      },
      async stop() {},
    };
    const send = () => {
      const count = Math.floor((clock.now - 10) * rate) - next;
      if (count <= 0) return;
      const values = Float64Array.from({ length: count }, (_, i) => 10 + (next + i + 1) / rate);
      hand?.({ kind: 'samples', first: next, count, values, at: at() });
      next += count;
    };
    return { source, send };
  }

  it('keeps every made channel beside its own signal, under the names of the rig', async () => {
    const clock = { now: 10 };
    const a = bridge('one', 1000, 100, clock);
    const b = bridge('two', 998, 70, clock);
    const got = collector();
    const wall = () => '2026-03-28T09:00:00Z' as UtcInstant;
    const rig = rigSource(
      'rig',
      [a.source, b.source],
      { monotonic: () => BigInt(Math.round(clock.now * 1e9)) as MonotonicNanoseconds, wall },
      ['One', 'Two'],
    );
    await rig.start(got.emit);
    for (; clock.now < 18; clock.now += 0.01) {
      a.send();
      b.send();
    }
    await rig.stop();
    expect(of(got.packets, 'header')[0]?.channels.map(({ name, madeOf }) => [name, madeOf])).toEqual([
      ['bridge', undefined],
      ['Fz', [{ channel: 'bridge', factor: 100 }]],
      ['Two bridge', undefined],
      ['Two Fz', [{ channel: 'Two bridge', factor: 70 }]],
    ]);
    let rows = 0;
    for (const { count, values } of of(got.packets, 'samples'))
      for (let i = 0; i < count; i++) {
        const [one, first, two, second] = [0, 1, 2, 3].map((c) => values[c * count + i] as number);
        expect(Math.abs(first! - 100 * one!)).toBeLessThan(1e-9);
        // Put on the grid of the other source by straight lines, as its signal is.
        expect(Math.abs(second! - 70 * two!)).toBeLessThan(1e-9);
        rows++;
      }
    expect(rows).toBeGreaterThan(4000);
  });
});
