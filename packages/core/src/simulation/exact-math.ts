/**
 * Exponential, logarithm and sine from additions, multiplications and divisions alone.
 *
 * ECMAScript leaves the last bits of Math.exp, Math.log and Math.sin to the engine, so a curve built on them may differ
 * between a browser and a server. IEEE 754 fixes + - * / and the square root to the bit, hence these: a simulated pull is
 * the same bytes everywhere. Accuracy is a few units in the last place over the ranges the simulation uses.
 */
const ln2High = 0.6931471803691238; // upper 33 bits of ln 2, so that k * ln2High is exact (Cody and Waite 1980)
const ln2Low = 1.9082149292705877e-10;
const log2e = Math.LOG2E;

const powersOfTwo = (() => {
  const table = new Float64Array(2046);
  table[1022] = 1;
  for (let i = 1023; i < 2046; i++) table[i] = table[i - 1]! * 2;
  for (let i = 1021; i >= 0; i--) table[i] = table[i + 1]! / 2;
  return table;
})();

/** e^x for x up to 700; 0 below -700. Series of degree 13 after reduction to |r| <= ln 2 / 2. */
export function exactExp(x: number): number {
  if (x < -700) return 0;
  const k = Math.floor(x * log2e + 0.5);
  const r = x - k * ln2High - k * ln2Low;
  let sum = 1;
  for (let n = 13; n >= 1; n--) sum = 1 + (r * sum) / n;
  return sum * powersOfTwo[k + 1022]!;
}

/** Natural logarithm of x > 0: ln m + e ln 2 with m in [sqrt 1/2, sqrt 2], by 2 artanh((m - 1) / (m + 1)). */
export function exactLog(x: number): number {
  let m = x;
  let e = 0;
  while (m > Math.SQRT2) {
    m /= 2;
    e++;
  }
  while (m < Math.SQRT1_2) {
    m *= 2;
    e--;
  }
  const z = (m - 1) / (m + 1);
  const zz = z * z;
  let sum = 0;
  for (let n = 23; n >= 1; n -= 2) sum = 1 / n + zz * sum;
  return e * ln2High + (2 * z * sum + e * ln2Low);
}

/** x^y for x >= 0 (0 for x = 0, y > 0). */
export function exactPower(x: number, y: number): number {
  return x <= 0 ? 0 : exactExp(y * exactLog(x));
}

/** sin(2 pi x): the argument counts full turns, which keeps the reduction exact. */
export function sineOfTurns(x: number): number {
  let f = x - Math.floor(x + 0.5);
  if (f > 0.25) f = 0.5 - f;
  else if (f < -0.25) f = -0.5 - f;
  const y = f * 6.283185307179586;
  const yy = y * y;
  let sum = 1;
  for (let n = 20; n >= 2; n -= 2) sum = 1 - (yy * sum) / (n * (n + 1));
  return y * sum;
}

/** Rises from 0 at x <= 0 to 1 at x >= 1 without a corner (3x^2 - 2x^3). */
export function smoothStep(x: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  return x * x * (3 - 2 * x);
}

/** One smooth hump: 0 outside (0, 1), 1 in the middle. */
export function smoothHump(x: number): number {
  return x <= 0 || x >= 1 ? 0 : smoothStep(x < 0.5 ? 2 * x : 2 - 2 * x);
}
