import type { Recording, UtcInstant } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { sha256, smallFile } from '../../test/fixtures/small-c3d.ts';
import { bytesOf } from '../byte-source.ts';
import { WriteRefused } from '../write-refused.ts';
import { groupingOf } from './grouping.ts';
import { blockSize, readHeader } from './header.ts';
import { c3dFormat } from './index.ts';
import { numberReader, viewOf } from './numbers.ts';
import { numbersOf, type Parameter, readParameters, stringsOf } from './parameters.ts';
import { readC3d } from './read.ts';
import { writeC3d } from './write.ts';

function recording(more: Partial<Recording> = {}): Recording {
  const raw = Float64Array.of(784.62, 0.1, -0, 1234.5678, Number.NaN, -3);
  return {
    sampleRate: 1000 / 3,
    rateOrigin: 'time-column',
    measuredRate: 333.334,
    sampleCount: 6,
    channels: [
      { name: 'left plate', unit: 'N', raw, scale: 1, offset: 0 },
      { name: 'Kraft rechts é', unit: 'N.m', raw: Int16Array.of(1, -2, 3, 32767, -32768, 0), scale: 0.1, offset: 0.5 },
      {
        name: 'counts',
        unit: 'V',
        raw: Uint16Array.of(0, 65535, 32768, 1, 2, 3),
        scale: 1e-3,
        offset: 32768,
        rawRange: [0, 65535],
      },
    ],
    platforms: [],
    gaps: [{ start: 4, end: 5 }],
    events: [{ label: 'pull', time: 0.0123456789 }],
    recordedAt: '2026-01-14T16:42:05.250Z' as UtcInstant,
    facts: { device: 'Fernwater plate, “two”', 'POINT:RATE': '12' },
    notices: [{ code: 'text-guessed', message: 'the delimiter was guessed' }],
    ...more,
  };
}

function bytesFor(value: Recording) {
  const written = writeC3d(value);
  if (!written.ok) throw new Error(written.error.code);
  return written;
}

async function back(bytes: Uint8Array): Promise<Recording> {
  const result = await readC3d(bytesOf(bytes));
  if (!result.ok) throw new Error(result.error.code);
  return result.recordings[0]!.recording;
}

function parametersOf(bytes: Uint8Array): ReadonlyMap<string, Parameter> {
  const blocks = bytes[blockSize + 2]!;
  return readParameters(bytes.subarray(blockSize, blockSize * (1 + blocks)), 'intel').parameters;
}

/** The file as a reader without knowledge of the group STHENE sees it. */
function withoutOwnGroup(bytes: Uint8Array): Uint8Array {
  const copy = bytes.slice();
  const at = Buffer.from(copy).indexOf('STHENE');
  copy.set(Buffer.from('OTHERS'), at);
  return copy;
}

describe('writing C3D', () => {
  it('returns every value, name, gap, event and fact exactly', async () => {
    const written = bytesFor(recording());
    expect(written.notices).toEqual([]);
    expect(await back(written.bytes)).toEqual(recording());
  });

  it('gives the same bytes for the same recording', () => {
    expect(sha256(bytesFor(recording()).bytes)).toBe(sha256(bytesFor(recording()).bytes));
  });

  it('keeps the checklist: header equals parameters, sizes and padding', () => {
    const { bytes } = bytesFor(recording());
    const parameters = parametersOf(bytes);
    const header = readHeader(bytes.subarray(0, blockSize), numberReader(viewOf(bytes), 'intel'));
    const one = (name: string) => numbersOf(parameters.get(name))[0];
    expect(header.points).toBe(one('POINT:USED'));
    expect(header.analogPerFrame).toBe(one('ANALOG:USED')! * header.samplesPerFrame);
    expect(header.scale).toBe(one('POINT:SCALE'));
    expect(header.scale).toBeLessThan(0);
    expect(header.dataStart).toBe(one('POINT:DATA_START'));
    expect(header.dataStart).toBe(2 + bytes[blockSize + 2]!);
    expect(header.frameRate).toBe(one('POINT:RATE'));
    expect(one('ANALOG:RATE')).toBe(Math.fround(1000 / 3));
    expect(parameters.get('POINT:RATE')!.type).toBe(4);
    expect(stringsOf(parameters.get('ANALOG:UNITS'))).toEqual(['N', 'Nm', 'V']);
    const frameBytes = 4 * header.analogPerFrame;
    const frames = one('POINT:FRAMES')!;
    expect(bytes.length).toBe((header.dataStart - 1) * 512 + Math.ceil((frames * frameBytes) / 512) * 512);
  });

  it('gives readers of the standard groups the same physical values, to the precision of a float', async () => {
    const plain = await back(withoutOwnGroup(bytesFor(recording()).bytes));
    expect(plain.channels.map((c) => c.name)).toEqual(['left plate', 'Kraft rechts é', 'counts']);
    recording().channels.forEach((channel, c) => {
      channel.raw.forEach((value: number, i: number) => {
        const expected = (value - channel.offset) * channel.scale;
        const seen = plain.channels[c]!;
        const got = ((seen.raw[i] as number) - seen.offset) * seen.scale;
        if (Number.isNaN(expected)) expect(got).toBeNaN();
        else expect(Math.abs(got - expected)).toBeLessThanOrEqual(2e-7 * Math.max(1, Math.abs(expected)));
      });
    });
    expect(plain.events[0]!.time).toBeCloseTo(0.0123456789, 8);
    expect(plain.gaps).toEqual([{ start: 4, end: 5 }]);
  });

  it('brings full doubles back in parts, and shows others the value to seven digits', async () => {
    const raw = Float64Array.of(Math.PI * 100, 1 / 3, -0, Number.NaN, 700, 2 ** 53 - 1);
    const counts = Int32Array.of(2147483647, -2147483648, 16777217, 0, 1, -1);
    const channels = [
      { name: 'f', unit: 'N', raw, scale: 2, offset: 0 },
      { name: 'plain', unit: 'V', raw: Float32Array.of(1, 2, 3, 4, 5, 6), scale: 1, offset: 0 },
      { name: 'c', unit: '', raw: counts, scale: 1, offset: 7 },
    ];
    const value = recording({ channels, gaps: [{ start: 3, end: 4 }] });
    const written = bytesFor(value);
    expect(written.notices.map((n) => n.code)).toEqual(['c3d-split']);
    expect(await back(written.bytes)).toEqual(value);
    const plain = await back(withoutOwnGroup(written.bytes));
    expect(plain.channels.map((c) => c.name)).toEqual(['f', 'plain', 'c', 'f rest 1', 'f rest 2', 'c rest 1']);
    expect(plain.channels[0]!.raw[0]).toBe(Math.fround(Math.PI * 100));
    const sum = [0, 3, 4].reduce((s, c) => s + (plain.channels[c]!.raw[0] as number), 0);
    expect(sum).toBe(Math.PI * 100);
  });

  it('says by how much it is off when floats cannot hold the values, in the file too', async () => {
    const raw = Float64Array.of(1e-300, 1 / 3, 700);
    const channels = [{ name: 'f', unit: 'N', raw, scale: 1000, offset: 0 }];
    const value = recording({ channels, sampleCount: 3, gaps: [], events: [], notices: [] });
    const written = bytesFor(value);
    expect(written.notices.map((n) => n.code)).toEqual(['c3d-precision']);
    const read = await back(written.bytes);
    expect(read.notices).toEqual(written.notices);
    const off = 1000 * Math.max(...read.channels[0]!.raw.map((v: number, i: number) => Math.abs(v - raw[i]!)));
    expect(off).toBeGreaterThan(0);
    expect(off).toBeLessThan(2e-5);
    expect(written.notices[0]!.message).toContain(`${off.toPrecision(2)} N`);
  });

  it('writes the platforms of a plate file so that the standard groups carry them', async () => {
    const original = await back(smallFile());
    const { bytes } = bytesFor(original);
    expect(await back(bytes)).toEqual(original);
    const plain = await back(withoutOwnGroup(bytes));
    expect(plain.platforms).toEqual(original.platforms);
    expect(plain.channels).toEqual(original.channels);
    expect(plain.events).toEqual(original.events);
  });

  it('keeps a platform whose force no channel gives as a channel of its own', async () => {
    const verticalForce = Float64Array.of(700.25, 701, 0, 0, 5, 6);
    const platforms = [{ name: 'Plate A', type: 2, channels: [], verticalForce, pressSign: 1 as const }];
    const written = bytesFor(recording({ platforms }));
    expect(written.notices.map((n) => n.code)).toEqual(['c3d-plate-as-channel', 'c3d-plate-incomplete']);
    expect(await back(written.bytes)).toEqual(recording({ platforms }));
    const plain = await back(withoutOwnGroup(written.bytes));
    expect(plain.channels.map((c) => c.name).at(-1)).toBe('Plate A Fz');
    expect([...plain.channels.at(-1)!.raw]).toEqual([...verticalForce]);
  });

  it('falls back to the standard groups when another program changed the file', async () => {
    const { bytes } = bytesFor(recording());
    const parameters = parametersOf(bytes);
    // The bytes of a parameter are a view into the file.
    viewOf(parameters.get('ANALOG:SCALE')!.bytes).setFloat32(0, 2, true);
    const read = await back(bytes);
    expect(read.notices.map((n) => n.code)).toContain('c3d-own-group-stale');
    expect(read.channels[0]!.scale).toBe(2);
  });

  it('groups samples into frames that fit 16 bits, without padding', () => {
    expect(groupingOf(65534, 1)).toEqual({ samplesPerFrame: 1, frames: 65534 });
    expect(groupingOf(120_000, 9)).toEqual({ samplesPerFrame: 2, frames: 60_000 });
    expect(groupingOf(4870, 28, 10)).toEqual({ samplesPerFrame: 10, frames: 487 });
    expect(groupingOf(4871, 28, 10)).toEqual({ samplesPerFrame: 1, frames: 4871 });
    // 104729 is the 10 000th prime: nothing divides it.
    expect(groupingOf(104_729, 2)).toEqual({ samplesPerFrame: 1, frames: 104_729 });
    expect(groupingOf(10_000_000, 6000).samplesPerFrame).toBe(1);
  });

  it('brings long recordings back whole, also where the count is a prime', async () => {
    for (const sampleCount of [104_729, 131_072]) {
      const raw = Float32Array.from({ length: sampleCount }, (_, i) => i % 1000);
      const channels = [{ name: 'f', unit: 'N', raw, scale: 1, offset: 0 }];
      const value = recording({ channels, sampleCount, gaps: [], facts: {} });
      const { bytes } = bytesFor(value);
      expect((await back(bytes)).channels[0]!.raw).toEqual(raw);
      expect((await back(withoutOwnGroup(bytes))).channels[0]!.raw).toEqual(raw);
    }
  });

  it('spreads more than 255 channels over LABELS2 and its kin', async () => {
    const channels = Array.from({ length: 300 }, (_, i) => ({
      name: `c${i}`,
      unit: i % 2 === 0 ? 'N' : 'V',
      raw: Float32Array.of(i, -i),
      scale: i + 1,
      offset: i,
    }));
    const value = recording({ channels, sampleCount: 2, gaps: [], facts: {}, notices: [], events: [] });
    const { bytes } = bytesFor(value);
    expect(await back(bytes)).toEqual(value);
    expect((await back(withoutOwnGroup(bytes))).channels).toEqual(channels);
  });

  it('leaves facts out, and says so, when they do not fit; refuses an empty recording', async () => {
    const facts = Object.fromEntries(Array.from({ length: 300 }, (_, i) => [`fact ${i}`, 'x'.repeat(500)]));
    const written = bytesFor(recording({ facts }));
    expect(written.notices.map((n) => n.code)).toEqual(['c3d-facts-left-out']);
    expect((await back(written.bytes)).facts).toEqual({});
    expect(writeC3d(recording({ channels: [] }))).toMatchObject({ ok: false, error: { code: 'c3d-nothing-to-write' } });
    await expect(c3dFormat.write!(recording({ channels: [] }))).rejects.toBeInstanceOf(WriteRefused);
  });
});
