import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analysePlainly, must } from './plain/analyse.ts';
import { butterworth, fillGaps, filterPiece, rateOfTimes } from './plain/signal.ts';
import { inputOf } from './plain-input.ts';

/** 800 N standing for 2 s, then 800 + net(t); t = 0 is sample 2 fs. */
function curve(fs: number, net: (t: number) => number): Float64Array {
  return Float64Array.from({ length: 5 * fs }, (_, n) => 800 + (n > 2 * fs ? net(n / fs - 2) : 0));
}

// Closed-form values of the project's methods reference, section 9.5 ("calc": double precision from the stated curve).
describe('force-time metrics on 800 + 2000 (1 - exp(-t / 0.1)), onset given at t = 0', () => {
  const fs = 1000;
  const total = curve(fs, (t) => 2000 * (1 - Math.exp(-t / 0.1)));
  const [result] = analysePlainly(inputOf(fs, total, { onsetByHand: 2000 }));
  const value = (id: string) => must(result!.metrics[id]!);

  it.each([
    ['force_at_50', 1586.938681],
    ['force_at_90', 1986.860681],
    ['force_at_100', 2064.241118],
    ['force_at_150', 2353.73968],
    ['force_at_200', 2529.329434],
    ['force_at_250', 2635.830003],
    ['force_net_at_100', 1264.241118],
    ['impulse_net_0_200', 227.065616],
  ])('%s', (id, expected) => {
    expect(Math.abs(value(id) - expected)).toBeLessThan(1e-5);
  });

  it.each([
    ['rfd_0_50', 15738.773611],
    ['rfd_0_100', 12642.411177],
    ['rfd_0_150', 10358.264531],
    ['rfd_0_200', 8646.647168],
    ['rfd_0_250', 7343.320011],
    ['rfd_peak_5', 19508.2302],
    ['rfd_peak_10', 19032.516393],
    ['rfd_peak_20', 18126.924692],
    ['rfd_peak_50', 15738.773611],
  ])('%s', (id, expected) => {
    expect(Math.abs(value(id) - expected)).toBeLessThan(1e-4);
  });

  it.each([
    ['impulse_net_0_100', 73.575888],
    ['impulse_net_0_200', 227.067057],
    ['impulse_net_0_250', 316.416999],
    ['impulse_0_200', 387.067057],
  ])('%s against the closed form', (id, expected) => {
    expect(Math.abs(value(id) - expected)).toBeLessThan(5e-3);
  });

  it('refuses a 2 ms window at 1000 Hz, which holds fewer than 5 samples', () => {
    expect(result!.metrics.rfd_peak_2).toEqual({ reason: 'window-too-short' });
  });

  it('gives the 2 ms window at 2500 Hz or more', () => {
    const fine = curve(2500, (t) => 2000 * (1 - Math.exp(-t / 0.1)));
    const [other] = analysePlainly(inputOf(2500, fine, { onsetByHand: 5000 }));
    expect(Math.abs(must(other!.metrics.rfd_peak_2!) - 19801.326693)).toBeLessThan(1e-4);
  });

  it.each([
    ['fixed-newton-20', 1.005034],
    ['fixed-newton-40', 2.020271],
    ['fixed-newton-50', 2.531781],
    ['fixed-newton-75', 3.822122],
    ['percent-weight-10', 4.082199],
  ])('%s finds the first sample after its crossing', (rule, delay) => {
    expect(must(result!.onsets![rule]!).index).toBe(2000 + Math.ceil(delay));
  });
});

// Section 2.4 of the same file: 2000 (1 - exp(-(t / 0.15)^2)), values to 0.1 N, delays to 0.01 ms.
describe('onset delay on 800 + 2000 (1 - exp(-(t / 0.15)^2))', () => {
  const fs = 1000;
  const total = curve(fs, (t) => 2000 * (1 - Math.exp(-((t / 0.15) ** 2))));
  const [result] = analysePlainly(inputOf(fs, total, { onsetByHand: 2000 }));

  it.each([
    ['fixed-newton-20', 15.04],
    ['fixed-newton-40', 21.32],
    ['fixed-newton-50', 23.87],
    ['fixed-newton-75', 29.33],
    ['percent-weight-10', 30.31],
  ])('%s', (rule, delay) => {
    expect(must(result!.onsets![rule]!).index).toBe(2000 + Math.ceil(delay));
  });

  it.each([
    ['force_net_at_50', 210.3],
    ['force_net_at_100', 717.6],
    ['force_net_at_150', 1264.2],
    ['force_net_at_200', 1662.0],
    // The table prints 1875.7; its own formula gives 2000 (1 - exp(-(0.25 / 0.15)^2)) = 1875.647.
    ['force_net_at_250', 1875.647],
  ])('%s from the true onset', (id, expected) => {
    expect(Math.abs(must(result!.metrics[id]!) - expected)).toBeLessThan(0.05 + 1e-9);
  });

  it('gives 7176 N/s over the first 100 ms', () => {
    expect(Math.abs(must(result!.metrics.rfd_0_100!) - 7176)).toBeLessThan(0.5);
  });
});

// Section 9.7 of the same file: L = 1500, R = 1300 gives 7.142857 %; positive is right here, so the sign turns.
it('puts the larger left side at minus 7.142857 %', () => {
  const shape = curve(1000, (t) => 2000 * (1 - Math.exp(-t / 0.02)));
  const left = shape.map((f) => (f * 1500) / 2800);
  const right = shape.map((f) => (f * 1300) / 2800);
  const [result] = analysePlainly(inputOf(1000, shape, { left, right }));
  expect(Math.abs(must(result!.metrics.asymmetry_at_peak!) + 7.142857)).toBeLessThan(1e-6);
});

describe('filter', () => {
  it('designs the corrected, pre-warped section of methods reference 9.6 (100 Hz at 1000 Hz)', () => {
    const expected = [0.09444674, 0.18889349, 0.09444674, -0.96264131, 0.34042828];
    butterworth(100, 1000).forEach((value, i) => {
      expect(Math.abs(value - expected[i]!)).toBeLessThan(1e-7);
    });
  });

  const file = JSON.parse(readFileSync(new URL('./fixtures/filter.json', import.meta.url), 'utf8')) as {
    cases: { fs: number; cutoff: number; count: number; y: number[] }[];
  };
  it.each(file.cases)('equals SciPy filtfilt (fixtures/make-filter.py): $fs Hz, $cutoff Hz, $count samples', (one) => {
    const x = Array.from(
      { length: one.count },
      (_, n) => 800 + 500 * (1 - Math.exp(-n / 40)) + 20 * Math.sin((n * n) / 50),
    );
    filterPiece(x, one.cutoff, one.fs).forEach((value, n) => {
      expect(Math.abs(value - one.y[n]!)).toBeLessThan(1e-9 * one.y[n]!);
    });
  });
});

describe('signal by hand', () => {
  it('fills 5 ms linearly and leaves 6 ms open', () => {
    const F = Float64Array.from({ length: 40 }, (_, n) => n);
    F.fill(Number.NaN, 10, 15);
    F.fill(Number.NaN, 20, 26);
    const { force, filled, open } = fillGaps(
      F,
      [
        { start: 10, end: 15 },
        { start: 20, end: 26 },
      ],
      1000,
    );
    expect([...force.subarray(9, 16)]).toEqual([9, 10, 11, 12, 13, 14, 15]);
    expect([...force.subarray(19, 27)]).toEqual([19, 19, 19, 19, 19, 19, 19, 26]);
    expect(filled).toEqual([{ start: 10, end: 15 }]);
    expect(open).toEqual([{ start: 20, end: 26 }]);
  });

  it('takes the rate from a time column', () => {
    const column = (rate: number) => Array.from({ length: 2001 }, (_, n) => n / rate);
    expect(rateOfTimes(column(1000.4))).toBe(1000);
    expect(rateOfTimes(column(1000.4), 1000.5)).toBe(1000.5);
    expect(rateOfTimes(column(300.4))).toBeCloseTo(300.4, 6);
    expect(rateOfTimes(column(449.9))).toBe(450);
  });
});
