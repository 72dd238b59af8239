import { expect, it } from 'vitest';
import { halfDifference, rootSumOfSquares } from './combine.ts';

/** Contributions of independent inputs with their standard uncertainties, as the metrics' are found. */
function contributions(f: (x: readonly number[]) => number, inputs: readonly { value: number; u: number }[]): number[] {
  const at = (i: number, sign: number) => f(inputs.map(({ value, u }, k) => (k === i ? value + sign * u : value)));
  return inputs.map((_, i) => halfDifference(at(i, 1), at(i, -1)));
}

// GUM (JCGM 100:2008) H.1, the end gauge: l = l_S + d - l_S (da th + a_S dth). Inputs as printed; combined 32 nm printed, 31.7106 nm with
// the rounded inputs (calculated values of the methods reference, isometric 9.12).
it('GUM H.1: the end gauge', () => {
  const length = ([lS = 0, d = 0, aS = 0, th = 0, da = 0, dth = 0]: readonly number[]) =>
    lS + d - lS * (da * th + aS * dth);
  const parts = contributions(length, [
    { value: 50.000623e6, u: 25 },
    { value: 215, u: 9.7 },
    { value: 11.5e-6, u: 1.2e-6 },
    { value: -0.1, u: 0.41 },
    { value: 0, u: 0.58e-6 },
    { value: 0, u: 0.029 },
  ]).map(Math.abs);
  expect(length([50.000623e6, 215, 11.5e-6, -0.1, 0, 0])).toBeCloseTo(50.000838e6, 6);
  for (const [i, want] of [25, 9.7, 0, 0, 2.9, 16.6].entries())
    expect(Math.abs((parts[i] ?? 0) - want)).toBeLessThan(0.1);
  expect(rootSumOfSquares(parts)).toBeCloseTo(31.7106, 2);
});

// GUM H.2, resistance, reactance and impedance from correlated V, I and phase: standard uncertainties and correlations of the means, and
// R 127.7322 (0.0711), X 219.8465 (0.2956), Z 254.2597 (0.2363) ohm, calculated from the printed data (methods reference, 9.12; printed
// 127.732 (0.071), 219.847 (0.295), 254.260 (0.236)). The correlated inputs are written as sums of independent ones, each of which
// moves all of them: what a gain common to several forces does.
it('GUM H.2: correlated inputs as sums of independent ones', () => {
  const data = [
    [5.007, 4.994, 5.005, 4.99, 4.999],
    [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
    [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  ];
  const means = data.map((row) => row.reduce((sum, x) => sum + x, 0) / 5);
  const covariance = data.map((a, i) =>
    data.map((b, j) => a.reduce((sum, x, k) => sum + (x - (means[i] ?? 0)) * ((b[k] ?? 0) - (means[j] ?? 0)), 0) / 20),
  );
  const root = cholesky(covariance);
  const moved = (i: number, sign: number) => means.map((mean, k) => mean + sign * (root[k]?.[i] ?? 0));
  const of = (f: (x: readonly number[]) => number) =>
    rootSumOfSquares([0, 1, 2].map((i) => halfDifference(f(moved(i, 1)), f(moved(i, -1)))));
  const resistance = ([v = 0, i = 1, phase = 0]: readonly number[]) => (v / i) * Math.cos(phase);
  const reactance = ([v = 0, i = 1, phase = 0]: readonly number[]) => (v / i) * Math.sin(phase);
  const impedance = ([v = 0, i = 1]: readonly number[]) => v / i;
  expect([resistance, reactance, impedance].map((f) => f(means))).toEqual(
    [127.7322, 219.8465, 254.2597].map((want) => expect.closeTo(want, 3)),
  );
  expect([resistance, reactance, impedance].map(of)).toEqual(
    [0.0711, 0.2956, 0.2363].map((want) => expect.closeTo(want, 4)),
  );
});

/** Lower triangle whose product with its transpose is the matrix. */
function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const root = matrix.map((row) => row.map(() => 0));
  for (const [i, row] of root.entries())
    for (let j = 0; j <= i; j++) {
      const other = root[j] as number[];
      let rest = matrix[i]?.[j] ?? 0;
      for (let k = 0; k < j; k++) rest -= (row[k] ?? 0) * (other[k] ?? 0);
      row[j] = i === j ? Math.sqrt(rest) : rest / (other[j] ?? 1);
    }
  return root;
}
