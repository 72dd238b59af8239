import { describe, expect, it } from 'vitest';
import type { ForceInput } from './forces.ts';
import { forcesOf } from './forces-of.ts';
import { physicalRange, physicalValues } from './physical.ts';
import type { Channel, Recording } from './recording.ts';

const channel = (name: string, unit: string, raw: Channel['raw'], more: Partial<Channel> = {}): Channel => ({
  name,
  unit,
  raw,
  scale: 1,
  offset: 0,
  ...more,
});

const recording = (channels: Channel[], more: Partial<Recording> = {}): Recording => ({
  sampleRate: 1000,
  rateOrigin: 'declared',
  sampleCount: channels[0]?.raw.length ?? 0,
  channels,
  platforms: [],
  gaps: [],
  events: [],
  facts: {},
  notices: [],
  ...more,
});

const from = (index: number, part: ForceInput['part'], more: Partial<ForceInput> = {}): ForceInput => ({
  from: { kind: 'channel', index },
  part,
  ...more,
});

function forces(of: Recording, ...inputs: ForceInput[]) {
  const outcome = forcesOf(of, { inputs });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

describe('forcesOf', () => {
  it('converts units, calibrates voltages and flips signs', () => {
    const given = recording([
      channel('a', 'kN', Float64Array.of(1, 2)),
      channel('b', 'V', Int16Array.of(100, 300), { scale: 0.01, offset: 0, rawRange: [-1000, 1000] }),
      channel('c', 'kgf', Float64Array.of(-1, -2)),
    ]);
    const got = forces(
      given,
      from(0, 'left'),
      from(1, 'right', { newtonsPerUnit: 500, zero: 0.5 }),
      from(2, 'none', { sign: -1 }),
    );
    expect([...(got.left ?? [])]).toEqual([1000, 2000]);
    expect([...(got.right ?? [])]).toEqual([250, 1250]);
    expect(got.plates[1]?.range).toEqual([-5250, 4750]);
    expect([...(got.plates[2]?.force ?? [])]).toEqual([9.80665, 19.6133]);
    expect([...got.total]).toEqual([1259.80665, 3269.6133]);
    expect(got.unit).toBe('N');
  });

  it('takes a declared total for F and keeps the sides', () => {
    const given = recording([
      channel('l', 'N', Float64Array.of(1, 2)),
      channel('r', 'N', Float64Array.of(3, 4)),
      channel('t', 'N', Float64Array.of(5, 7)),
    ]);
    const got = forces(given, from(0, 'left'), from(1, 'right'), from(2, 'total'));
    expect([...got.total]).toEqual([5, 7]);
    expect([...(got.left ?? [])]).toEqual([1, 2]);
  });

  it('multiplies a platform by its press sign', () => {
    const given = recording([], {
      sampleCount: 2,
      platforms: [{ name: '1', type: 2, channels: [], verticalForce: Float64Array.of(-700, -800), pressSign: -1 }],
    });
    const got = forces(given, { from: { kind: 'platform', index: 0 }, part: 'none' });
    expect([...got.total]).toEqual([700, 800]);
    expect(got.left).toBeUndefined();
  });

  it('fills up to 5 ms, leaves longer gaps and ends open, and stays finite', () => {
    const values = Float64Array.from({ length: 40 }, (_, i) => 10 * i);
    values.fill(Number.NaN, 0, 2);
    values.fill(Number.NaN, 5, 10);
    values.fill(Number.NaN, 20, 26);
    values.fill(Number.NaN, 38, 40);
    const gaps = [
      { start: 0, end: 2 },
      { start: 5, end: 10 },
      { start: 20, end: 26 },
      { start: 38, end: 40 },
    ];
    const got = forces(recording([channel('f', 'N', values)], { gaps }), from(0, 'total'));
    expect(got.gaps.filled).toEqual([{ start: 5, end: 10 }]);
    expect(got.gaps.open).toEqual([gaps[0], gaps[2], gaps[3]]);
    expect([...got.total.subarray(5, 10)]).toEqual([50, 60, 70, 80, 90]);
    expect(got.total[0]).toBe(20);
    expect(got.total[25]).toBe(190);
    expect(got.total[39]).toBe(370);
    expect(values[5]).toBeNaN();
  });

  it('joins the gaps of two plates; an open one wins', () => {
    const a = new Float64Array(30).fill(1);
    const b = new Float64Array(30).fill(2);
    a.fill(Number.NaN, 10, 13);
    b.fill(Number.NaN, 12, 20);
    const got = forces(recording([channel('a', 'N', a), channel('b', 'N', b)]), from(0, 'none'), from(1, 'none'));
    expect(got.gaps.open).toEqual([{ start: 12, end: 20 }]);
    expect(got.gaps.filled).toEqual([{ start: 10, end: 12 }]);
    expect([...got.total].every((value) => value === 3)).toBe(true);
  });

  it('believes a listed gap of integer channels, and leaves aside one that is plainly another channel’s', () => {
    const gaps = [{ start: 3, end: 13 }];
    const counts = new Int16Array(30).fill(5);
    expect(forces(recording([channel('i', 'N', counts)], { gaps }), from(0, 'total')).gaps.open).toEqual(gaps);
    const whole = new Float64Array(30).fill(5);
    expect(forces(recording([channel('f', 'N', whole)], { gaps }), from(0, 'total')).gaps.open).toEqual(gaps);
    const torn = new Float64Array(30).fill(1).fill(Number.NaN, 3, 13);
    const two = recording([channel('f', 'N', whole), channel('cop', 'm', torn)], { gaps });
    expect(forces(two, from(0, 'total')).gaps.open).toEqual([]);
  });

  it('returns reasons', () => {
    const given = recording([channel('f', '', Float64Array.of(1)), channel('v', 'V', Float64Array.of(1))]);
    expect(forcesOf(given, { inputs: [] })).toEqual({ ok: false, reason: 'no-force-channel' });
    expect(forcesOf(given, { inputs: [from(7, 'total')] })).toEqual({ ok: false, reason: 'no-force-channel' });
    expect(forcesOf(given, { inputs: [from(0, 'total')] })).toEqual({ ok: false, reason: 'unit-unknown' });
    expect(forcesOf(given, { inputs: [from(1, 'total')] })).toEqual({ ok: false, reason: 'unit-unknown' });
    expect(forcesOf(given, { inputs: [from(0, 'total', { unit: 'N' })] }).ok).toBe(true);
    expect(forcesOf(recording([channel('f', 'N', new Float64Array(0))]), { inputs: [from(0, 'total')] })).toEqual({
      ok: false,
      reason: 'recording-too-short',
    });
  });

  it('gives another unit to a test without body weight', () => {
    const given = recording([channel('t', 'N.mm', Float64Array.of(1500))]);
    const outcome = forcesOf(given, { inputs: [from(0, 'total')] }, 'N.m');
    expect(outcome.ok && [...outcome.value.total]).toEqual([1.5]);
  });
});

describe('physical values', () => {
  it('are (raw - offset) * scale', () => {
    const given = channel('c', 'V', Uint16Array.of(32768, 32868), { scale: -0.5, offset: 32768, rawRange: [0, 65535] });
    expect([...physicalValues(given)].map((value) => value + 0)).toEqual([0, -50]);
    expect(physicalRange(given)).toEqual([-16383.5, 16384]);
    expect(physicalRange(channel('c', 'V', Int8Array.of(1)))).toBeUndefined();
  });
});
