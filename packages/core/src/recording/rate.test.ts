import { describe, expect, it } from 'vitest';
import { rateOfTimes } from './rate.ts';

const rate = (count: number, last: number, declared?: number) => {
  const outcome = rateOfTimes(count, 0, last, declared);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

// By hand from the definition: (N - 1) / (t_last - t_first), 0.05 %.
describe('rate of a time column', () => {
  it('snaps to a whole rate within 0.05 %', () => {
    expect(rate(1001, 1.0004)).toMatchObject({ sampleRate: 1000, rateOrigin: 'time-column-snapped', notices: [] });
    expect(rate(1001, 1.0004).measuredRate).toBeCloseTo(1000 / 1.0004, 9);
  });

  it('uses the measured rate, and says so, when no whole one is near', () => {
    const got = rate(121, 1.2 * 1.004);
    expect(got.sampleRate).toBeCloseTo(100 / 1.004, 9);
    expect(got.rateOrigin).toBe('time-column');
    expect(got.notices.map(({ code }) => code)).toEqual(['rate-measured']);
  });

  it('prefers a declared rate, whole or not, and says when it contradicts the times', () => {
    expect(rate(1001, 1000 / 333.4, 333.333).sampleRate).toBe(333.333);
    expect(rate(1001, 1, 500)).toMatchObject({ sampleRate: 1000, notices: [{ code: 'rate-not-as-declared' }] });
  });

  it('gives a reason where there is no rate', () => {
    for (const [count, last] of [
      [1, 1],
      [5, 0],
      [5, -1],
      [5, Number.NaN],
    ] as const) {
      expect(rateOfTimes(count, 0, last)).toEqual({ ok: false, reason: 'recording-too-short' });
    }
  });
});
