import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { butterworthLowPass, filterForwardBackward, zeroLagLowPass } from './butterworth.ts';

const fixture = JSON.parse(
  readFileSync(new URL('../../../../testdata/signal/filter.json', import.meta.url), 'utf8'),
) as {
  cases: {
    rate: number;
    cutoff: number;
    count: number;
    every: number;
    b: number[];
    a: number[];
    x: number[];
    y: number[];
  }[];
};

/** The curve of make-filter.py. */
function curve(count: number, rate: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => {
    const t = i / rate;
    const rise = t >= 1.2 ? 1500 * (1 - Math.exp(-(t - 1.2) / 0.15)) : 0;
    return 800 + rise + 3 * Math.sin(2 * Math.PI * 47 * t) + 1.5 * Math.sin(2 * Math.PI * 211 * t + 0.3) + 2 * t;
  });
}

describe('Butterworth coefficients', () => {
  // SP-01: a0 = a2, a1, b1, b2 with feedback terms added (so a1 = -b1). Calculated values of the methods reference, 4.1;
  // the row 6/60 with one pass is Winter's textbook example.
  it.each([
    [6, 60, 1, 0.0674552739, 0.1349105478, 1.1429805025, -0.4128015981],
    [6, 60, 2, 0.0944467439, 0.1888934878, 0.9626413088, -0.3404282844],
    [6, 1000, 1, 0.0003460413, 0.0006920827, 1.9466975408, -0.9480817061],
    [6, 1000, 2, 0.0005341496, 0.0010682992, 1.9335707365, -0.9357073349],
    [10, 1000, 1, 0.0009446918, 0.0018893837, 1.9111970674, -0.9149758348],
    [10, 1000, 2, 0.0014518634, 0.0029037267, 1.8893629205, -0.895170374],
    [20, 1000, 1, 0.0036216815, 0.007243363, 1.8226949252, -0.8371816513],
    [20, 1000, 2, 0.0055057443, 0.0110114887, 1.7794063037, -0.801429281],
    [50, 1000, 1, 0.0200833656, 0.0401667311, 1.5610180758, -0.6413515381],
    [50, 1000, 2, 0.0295690747, 0.0591381494, 1.4581038605, -0.5763801593],
    [100, 1000, 2, 0.0944467439, 0.1888934878, 0.9626413088, -0.3404282844],
    [50, 2000, 2, 0.0083806482, 0.0167612965, 1.7248509235, -0.7583735165],
  ])('SP-01: %d Hz at %d Hz, %d passes', (cutoff, rate, passes, b0, b1, minusA1, minusA2) => {
    const section = butterworthLowPass(cutoff, rate, passes);
    const got = [section.b0, section.b1, section.b2, -section.a1, -section.a2];
    for (const [i, want] of [b0, b1, b0, minusA1, minusA2].entries()) {
      expect(Math.abs((got[i] ?? 0) - want)).toBeLessThan(1e-9);
    }
  });

  // 9.6 of the isometric methods reference (calculated); SP-02e with and without the correction.
  it('has the net gain 1/sqrt 2 at the cut-off after two passes', () => {
    expect(twoPassGain(butterworthLowPass(100, 1000, 2), 100, 1000)).toBeCloseTo(Math.SQRT1_2, 8);
    const gains = [25, 50, 100].map((f) => twoPassGain(butterworthLowPass(50, 1000, 2), f, 1000));
    for (const [i, want] of [0.97536912, Math.SQRT1_2, 0.11995697].entries()) {
      expect(Math.abs((gains[i] ?? 0) - want)).toBeLessThan(1e-7);
    }
    const single = [25, 50, 100].map((f) => twoPassGain(butterworthLowPass(50, 1000, 1), f, 1000));
    for (const [i, want] of [0.94253742, 0.5, 0.05344321].entries()) {
      expect(Math.abs((single[i] ?? 0) - want)).toBeLessThan(1e-7);
    }
  });

  // 9.6 of the isometric methods reference (calc, 1e-7; frequency 1e-5): C = (sqrt 2 - 1)^(1/4), on the pre-warped axis.
  it('designs 100 Hz at 1000 Hz as one pass, and for two passes at 122.492406 Hz', () => {
    const wanted = { b0: 0.06745527, b1: 0.13491055, b2: 0.06745527, a1: -1.1429805, a2: 0.4128016 };
    const single = butterworthLowPass(100, 1000, 1);
    for (const key of ['b0', 'b1', 'b2', 'a1', 'a2'] as const)
      expect(Math.abs(single[key] - wanted[key]), key).toBeLessThan(1e-7);
    const double = butterworthLowPass(100, 1000, 2);
    const correction = Math.tan(Math.PI * 0.1) / prewarped(double);
    expect(Math.abs(correction - 0.80224326)).toBeLessThan(1e-7);
    expect(Math.abs((1000 / Math.PI) * Math.atan(prewarped(double)) - 122.492406)).toBeLessThan(1e-5);
    // Correcting the frequency itself, without its warping, would miss the cut-off.
    const unwarped = butterworthLowPass(100 / correction, 1000, 1);
    expect(Math.abs(100 / correction - 124.65047)).toBeLessThan(1e-5);
    expect(Math.abs(twoPassGain(unwarped, 100, 1000) - 0.7229)).toBeLessThan(1e-4);
  });

  it('refuses a cut-off at or above half the rate', () => {
    expect(() => butterworthLowPass(50, 100, 2)).toThrow(RangeError);
    expect(() => butterworthLowPass(0, 100, 2)).toThrow(RangeError);
  });
});

describe('zero-lag filter', () => {
  // SP-02d, calculated value of the methods reference.
  it('SP-02d: squares, one-pass coefficients, padding 6', () => {
    const x = Float64Array.from({ length: 10 }, (_, i) => i * i);
    const y = new Float64Array(10);
    filterForwardBackward(butterworthLowPass(6, 60, 1), x, y, 0, 10, 6);
    const want = [
      -0.722094, 2.049555, 5.501225, 10.374816, 17.198439, 26.262144, 37.623446, 51.091025, 66.177867, 82.061752,
    ];
    for (const [i, value] of want.entries()) expect(Math.abs((y[i] ?? 0) - value)).toBeLessThan(1e-5);
  });

  // SP-03, calculated value of the methods reference.
  it.each([
    [10, 60.19, 13764.4],
    [20, 30.06, 13782.7],
    [50, 11.94, 13798.8],
    [100, 5.82, 13842.2],
  ])('SP-03: a ramp through %d Hz rises before its onset', (cutoff, atOnset, slope) => {
    const ramp = Float64Array.from({ length: 1500 }, (_, i) => 2000 * Math.min(1, Math.max(0, (i - 500) / 150)));
    const y = zeroLagLowPass(ramp, 1000, cutoff);
    expect(Math.abs((y[500] ?? 0) - atOnset)).toBeLessThan(0.05);
    let steepest = 0;
    for (let i = 1; i < y.length; i++) steepest = Math.max(steepest, ((y[i] ?? 0) - (y[i - 1] ?? 0)) * 1000);
    expect(Math.abs(steepest - slope)).toBeLessThan(1);
  });

  // scipy 1.10.1, testdata/signal/make-filter.py.
  it.each(fixture.cases)('agrees with scipy: $cutoff Hz at $rate Hz, $count samples', (given) => {
    const x = curve(given.count, given.rate);
    for (const [i, value] of given.x.entries()) expect(Math.abs((x[i * given.every] ?? 0) - value)).toBeLessThan(1e-9);
    const section = butterworthLowPass(given.cutoff, given.rate, 2);
    for (const [i, value] of given.b.entries()) {
      expect(Math.abs(([section.b0, section.b1, section.b2][i] ?? 0) - value)).toBeLessThan(1e-13);
    }
    for (const [i, value] of given.a.entries()) {
      expect(Math.abs(([1, section.a1, section.a2][i] ?? 0) - value)).toBeLessThan(1e-12);
    }
    const y = zeroLagLowPass(x, given.rate, given.cutoff);
    for (const [i, value] of given.y.entries()) {
      expect(Math.abs((y[i * given.every] ?? 0) / value - 1)).toBeLessThan(1e-10);
    }
  });

  it('keeps a constant exactly, leaves the input alone and filters each piece by itself', () => {
    const constant = new Float64Array(50).fill(733.3);
    expect([...zeroLagLowPass(constant, 1000, 50)]).toEqual([...constant]);
    const x = curve(2000, 1000);
    const before = x.slice();
    const y = zeroLagLowPass(x, 1000, 50, [
      { start: 0, end: 900 },
      { start: 950, end: 2000 },
    ]);
    expect(x).toEqual(before);
    expect(y.subarray(900, 950)).toEqual(x.subarray(900, 950));
    expect([...y.subarray(950)]).toEqual([...zeroLagLowPass(x.slice(950), 1000, 50)]);
    expect([...zeroLagLowPass(Float64Array.of(5), 1000, 50)]).toEqual([5]);
  });
});

function twoPassGain(s: ReturnType<typeof butterworthLowPass>, frequency: number, rate: number): number {
  const w = (2 * Math.PI * frequency) / rate;
  const square = (c0: number, c1: number, c2: number) =>
    (c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w)) ** 2 + (c1 * Math.sin(w) + c2 * Math.sin(2 * w)) ** 2;
  return square(s.b0, s.b1, s.b2) / square(1, s.a1, s.a2);
}

/** tan(pi f / rate) of the design frequency, from the section alone: w^2 = (1 + a1 + a2) / (1 - a1 + a2). */
const prewarped = ({ a1, a2 }: ReturnType<typeof butterworthLowPass>): number =>
  Math.sqrt((1 + a1 + a2) / (1 - a1 + a2));
