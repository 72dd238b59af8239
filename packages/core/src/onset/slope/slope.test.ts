import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../../test/onset-input.ts';
import { forcesOfCurve } from '../../../test/pulls.ts';
import { slope } from './slope.ts';

// By hand: constant 100 N, then 4 N a sample from index 101 on. With h = 5 at 1000 Hz, D_i = (F(i+5) - F(i-5)) 100; it is
// 0 up to i = 95 and 400 N/s at i = 96, so with a noiseless baseline (threshold 0) the onset is 96.
const curve = Float64Array.from({ length: 400 }, (_, i) => 100 + 4 * Math.max(0, i - 100));

describe('slope rule', () => {
  it('looks h samples ahead, so it may lie h - 1 samples before the force moves', () => {
    const outcome = slope.find(onsetInput(curve, 60, 700));
    expect(outcome).toMatchObject({
      ok: true,
      value: { index: 96, threshold: 0, thresholdUnit: 'N/s', search: { start: 5, end: 251 } },
    });
  });

  it('measures its threshold on the baseline without its ends', () => {
    const noisy = curve.map((value, i) => value + (i % 3));
    const outcome = slope.find(onsetInput(noisy, 60, 700));
    const slopes = Array.from(
      { length: 50 },
      (_, k) => (((noisy[k + 10] as number) - (noisy[k] as number)) * 1000) / 10,
    );
    const mean = slopes.reduce((sum, value) => sum + value, 0) / 50;
    const sd = Math.sqrt(slopes.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 49);
    expect(outcome.ok && outcome.value.threshold).toBeCloseTo(mean + 5 * sd, 9);
  });

  it('returns reasons', () => {
    const input = onsetInput(curve, 60, 700);
    expect(slope.find({ ...input, forces: forcesOfCurve(curve, 80) })).toEqual({
      ok: false,
      reason: 'window-too-short',
    });
    const rising = Float64Array.from({ length: 400 }, (_, i) => i * i);
    const outcome = slope.find(onsetInput(rising, 60, 1e5, { baseline: { start: 100, end: 112, mean: 0, sd: 1 } }));
    expect(outcome.ok).toBe(true);
    const torn = { ...input.forces, gaps: { filled: [], open: [{ start: 90, end: 97 }] } };
    expect(slope.find({ ...input, forces: torn })).toEqual({ ok: false, reason: 'gap-in-interval' });
  });
});
