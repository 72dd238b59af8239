import { describe, expect, it } from 'vitest';
import { noncentralTBelow } from '../distributions/index.ts';
import {
  againstOwn,
  lmsValue,
  lmsZ,
  normalScore,
  percentileRank,
  quickFrom,
  quickZInterval,
  robustZ,
  standing,
  stanine,
  sten,
  tScore,
  zInterval,
} from './index.ts';

describe('standard scores', () => {
  it('T, standard ten and nine', () => {
    expect([tScore(1.2), sten(1.2), stanine(1.2)]).toEqual([62, 8, 7]);
    expect([sten(-3), sten(3), stanine(-9), stanine(9)]).toEqual([1, 10, 1, 9]);
  });

  // Blom 1958; computed in full precision.
  it('normal scores', () => {
    const five = [-1.179761, -0.497201, 0, 0.497201, 1.179761];
    for (const [i, z] of five.entries()) expect(normalScore(i + 1, 5)).toBeCloseTo(z, 6);
    const ten = [0.122581, 0.375462, 0.655424, 1.000491, 1.546635];
    for (const [i, z] of ten.entries()) expect(normalScore(i + 6, 10)).toBeCloseTo(z, 6);
  });

  it('where one stands in a group', () => {
    const group = Array.from({ length: 20 }, (_, i) => 100 + i);
    const found = standing(115, group);
    if (!found.ok) throw new Error(found.reason);
    const { z, t, percentile } = found.value;
    expect(z.value).toBeCloseTo(5.5 / Math.sqrt(35), 12);
    expect(t.value).toBeCloseTo(50 + 10 * z.value, 12);
    expect(z.low < z.value && z.value < z.high).toBe(true);
    expect(percentile?.value).toBeCloseTo(77.5, 12);
    expect(percentile?.low).toBeCloseTo(77.5 - 195.99639845 * Math.sqrt((0.775 * 0.225) / 20), 6);
    expect(standing(3, [1, 2, 3, 4, 5]).ok && standing(3, [1, 2, 3, 4, 5])).toMatchObject({
      value: { percentile: undefined },
    });
    expect(standing(1, [1, 2])).toEqual({ ok: false, reason: 'too-few-values' });
    expect(standing(1, [2, 2, 2])).toEqual({ ok: false, reason: 'no-spread' });
    expect(percentileRank(2, [1, 2, 2, 3])).toBe(50);
  });

  it('the interval of z holds what makes the observed one just possible', () => {
    const { low, high } = zInterval(1.5, 12);
    expect(1 - noncentralTBelow(1.5 * Math.sqrt(12), 11, low * Math.sqrt(12))).toBeCloseTo(0.025, 8);
    expect(noncentralTBelow(1.5 * Math.sqrt(12), 11, high * Math.sqrt(12))).toBeCloseTo(0.025, 8);
  });

  it('quick limits lie beside the exact ones in groups large enough', () => {
    for (const n of [quickFrom, 100])
      for (const z of [-3, -1.2, 0, 0.5, 2]) {
        const [quick, exact] = [quickZInterval(z, n), zInterval(z, n)];
        expect(Math.abs(quick.low - exact.low)).toBeLessThan(0.014);
        expect(Math.abs(quick.high - exact.high)).toBeLessThan(0.014);
      }
    const group = Array.from({ length: quickFrom }, (_, i) => i * i);
    const [quick, exact] = [standing(50, group, 0.95, 'quick'), standing(50, group)];
    expect(quick.ok && exact.ok && quick.value.z.value === exact.value.z.value).toBe(true);
    expect(quick.ok && exact.ok && quick.value.z.low !== exact.value.z.low).toBe(true);
    expect(standing(2, [1, 2, 4], 0.95, 'quick')).toEqual(standing(2, [1, 2, 4]));
  });

  it('a robust z is not moved by one wild value', () => {
    expect(robustZ(12, [8, 9, 10, 11, 1000])).toBeCloseTo(2 / 1.4826, 12);
    expect(robustZ(1, [2, 2, 2, 5])).toBeUndefined();
  });

  it('a test against one’s own earlier ones', () => {
    const found = againstOwn(2800, [3010, 2950, 3060, 2985, 3030, 2965]);
    if (!found.ok) throw new Error(found.reason);
    const { mean, sd, next, z, t } = found.value;
    for (const [got, wanted] of [
      [mean, 3000],
      [sd, 41.352146],
      [next.low, 2885.184],
      [next.high, 3114.816],
      [z, -4.836508],
      [t, -4.477737],
      // The half-width over its standard error is t(5).
      [(next.high - mean) / (sd * Math.sqrt(1 + 1 / 6)), 2.570582],
    ] as const)
      expect(Math.abs(got - wanted)).toBeLessThan(1e-3);
    expect(againstOwn(1, [1, 2])).toEqual({ ok: false, reason: 'too-few-values' });
  });
});

describe('LMS', () => {
  // WHO Child Growth Standards 2006, weight for age, boys at birth; printed 2.1, 2.5, 2.9, 3.3, 3.9, 4.4, 5.0 kg.
  const birth = { l: 0.3487, m: 3.3464, s: 0.14602 };
  it('there and back', () => {
    const kilograms = [2.080308, 2.459312, 2.880651, 3.3464, 3.858619, 4.419354, 5.030639];
    for (const [i, value] of kilograms.entries()) {
      expect(lmsValue(i - 3, birth)).toBeCloseTo(value, 6);
      expect(lmsZ(lmsValue(i - 3, birth), birth)).toBeCloseTo(i - 3, 10);
    }
    expect(lmsZ(2.5, birth)).toBeCloseTo(-1.89878, 6);
    expect(lmsZ(3.9, birth)).toBeCloseTo(1.076916, 6);
    expect(lmsZ(4.4, birth)).toBeCloseTo(1.966907, 6);
    expect(lmsZ(lmsValue(1.3, { ...birth, l: 0 }), { ...birth, l: 0 })).toBeCloseTo(1.3, 12);
  });
});
