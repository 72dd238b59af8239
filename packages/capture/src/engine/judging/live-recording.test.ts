import { describe, expect, it } from 'vitest';
import type { StreamChannel } from '../../packets/packet.ts';
import { cellsAtLimit, forcesOfSpan, type RecordedSpan, recordingOfSpan } from './live-recording.ts';

const channel = (name: string, more: Partial<StreamChannel> = {}): StreamChannel => ({
  ...{ name, plate: 'plate', side: 'none', axis: 'z', unit: 'N', scale: 1, offset: 0 },
  ...more,
});
const signal = (name: string, more: Partial<StreamChannel> = {}) =>
  channel(name, { axis: 'other', unit: 'mV/V', scale: 0.001, offset: 100, rawRange: [-32_768, 32_767], ...more });
const made = channel('Fz', { madeOf: [{ channel: 'a', factor: 400 }] });

/** A force made of the signal a, and a signal b that has no part in it. */
const span = (a: readonly number[], b: readonly number[] = a.map(() => 0), more: Partial<StreamChannel> = {}) =>
  ({
    sampleRate: 1000,
    channels: [made],
    raw: [Float64Array.from(a, (value) => 0.4 * (value - 100))],
    beside: { channels: [signal('a', more), signal('b')], raw: [Float64Array.from(a), Float64Array.from(b)] },
  }) satisfies RecordedSpan;

describe('a force made of signals', () => {
  it('is at its limit where a signal with a share in it is', () => {
    expect(cellsAtLimit(span([100, 5000, 20_000]))).toBe(false);
    // 99.5 % of half the range from its middle, as for cells: 32767 - 0.0025 * 65535 = 32603.2.
    expect(cellsAtLimit(span([100, 32_603, 100]))).toBe(false);
    expect(cellsAtLimit(span([100, 32_604, 100]))).toBe(true);
    expect(cellsAtLimit(span([100, -32_768, 100]))).toBe(true);
    expect(cellsAtLimit(span([100, 100, 100], [100, 32_767, 100]))).toBe(false);
    expect(cellsAtLimit(span([100, Number.NaN, 100]))).toBe(false);
  });

  it('is not at its limit where its signal rests at an end of the range unloaded', () => {
    const unipolar = { offset: 12, rawRange: [0, 65_535] as const };
    expect(cellsAtLimit(span([0, 12, 30_000], undefined, unipolar))).toBe(false);
    expect(cellsAtLimit(span([0, 12, 65_500], undefined, unipolar))).toBe(true);
  });

  it('cannot be judged without a described range, nor without its signals', () => {
    const { rawRange: _, ...open } = signal('a');
    const all = span([100, 32_767, 100]);
    expect(cellsAtLimit({ ...all, beside: { ...all.beside, channels: [open, signal('b')] } })).toBe(false);
    const { beside: __, ...alone } = all;
    expect(cellsAtLimit(alone)).toBe(false);
  });

  it('is recorded first, its signals behind it as they came, and its forces are its own', () => {
    const recorded = span([100, 2600, 600], [1, 2, 3]);
    const recording = recordingOfSpan(recorded);
    expect(recording.channels.map(({ name, raw }) => [name, ...raw])).toEqual([
      ['Fz', 0, 1000, 200],
      ['a', 100, 2600, 600],
      ['b', 1, 2, 3],
    ]);
    const forces = forcesOfSpan(recorded, { Fz: 50 }, 'N');
    expect(forces.ok && [...forces.value.total]).toEqual([-50, 950, 150]);
    expect(forces.ok && forces.value.plates.map(({ name }) => name)).toEqual(['plate']);
  });
});
