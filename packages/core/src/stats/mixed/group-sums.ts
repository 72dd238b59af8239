import type { Group } from './groups.ts';

/** What the groups take off the cross products of the whole, all by rows: X' H^-1 X, X' H^-1 y, y' H^-1 y, log|H|. */
export interface GroupSums {
  readonly xx: Float64Array;
  readonly xy: Float64Array;
  yy: number;
  logDeterminant: number;
}

/**
 * Adds up what each group takes off: with C the Cholesky factor of I + L' Z'Z L, W = C^-1 L' Z'X and w = C^-1 L' Z'y, the group takes
 * W'W off X'X, W'w off X'y and w'w off y'y, and brings 2 sum log C_ii. Written out in plain numbers: a fit asks for it some hundred
 * times for every group, and matrices of two rows cost more to make than to use.
 *
 * @param factor the random factor L of a group of that many effects, lower triangular, by rows
 * @returns undefined where a group's matrix is not positive definite (an infinite parameter)
 */
export function groupSums(
  groups: readonly Group[],
  p: number,
  factor: (size: number) => Float64Array,
): GroupSums | undefined {
  const sums: GroupSums = { xx: new Float64Array(p * p), xy: new Float64Array(p), yy: 0, logDeterminant: 0 };
  const factors = new Map<number, Float64Array>();
  let [c, w, v] = [new Float64Array(4), new Float64Array(2 * p), new Float64Array(2)];
  for (const { size: q, zz, zx, zy } of groups) {
    let l = factors.get(q);
    if (l === undefined) {
      l = factor(q);
      factors.set(q, l);
    }
    if (v.length < q) [c, w, v] = [new Float64Array(q * q), new Float64Array(q * p), new Float64Array(q)];
    if (!choleskyOfGroup(zz, l, q, c)) return undefined;
    timesTransposed(l, zx, q, p, w);
    timesTransposed(l, zy, q, 1, v);
    forward(c, q, w, p);
    forward(c, q, v, 1);
    for (let i = 0; i < q; i++) {
      const vi = v[i] as number;
      sums.yy += vi * vi;
      sums.logDeterminant += 2 * Math.log(c[i * q + i] as number);
      for (let a = 0; a < p; a++) {
        const wia = w[i * p + a] as number;
        sums.xy[a] = (sums.xy[a] as number) + wia * vi;
        for (let b = 0; b < p; b++)
          sums.xx[a * p + b] = (sums.xx[a * p + b] as number) + wia * (w[i * p + b] as number);
      }
    }
  }
  return sums;
}

/** Lower Cholesky factor of I + L' A L, into `into`; false where there is none. */
function choleskyOfGroup(a: Float64Array, l: Float64Array, q: number, into: Float64Array): boolean {
  for (let i = 0; i < q; i++)
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? 1 : 0;
      for (let r = i; r < q; r++) {
        const left = l[r * q + i] as number;
        if (left === 0) continue;
        for (let s = j; s < q; s++) sum += left * (a[r * q + s] as number) * (l[s * q + j] as number);
      }
      for (let k = 0; k < j; k++) sum -= (into[i * q + k] as number) * (into[j * q + k] as number);
      if (i === j) {
        if (!(sum > 0)) return false;
        into[i * q + i] = Math.sqrt(sum);
      } else into[i * q + j] = sum / (into[j * q + j] as number);
    }
  return true;
}

/** L' B for a B of q rows and m columns. */
function timesTransposed(l: Float64Array, b: Float64Array, q: number, m: number, into: Float64Array): void {
  for (let i = 0; i < q; i++)
    for (let j = 0; j < m; j++) {
      let sum = 0;
      for (let r = i; r < q; r++) sum += (l[r * q + i] as number) * (b[r * m + j] as number);
      into[i * m + j] = sum;
    }
}

/** Solves C Y = B in place, C lower triangular of q rows, B of m columns. */
function forward(c: Float64Array, q: number, b: Float64Array, m: number): void {
  for (let i = 0; i < q; i++)
    for (let j = 0; j < m; j++) {
      let sum = b[i * m + j] as number;
      for (let k = 0; k < i; k++) sum -= (c[i * q + k] as number) * (b[k * m + j] as number);
      b[i * m + j] = sum / (c[i * q + i] as number);
    }
}
