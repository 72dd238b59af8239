import { indexOfLargest, mean, round, samples, sd, touches } from './numbers.ts';
import type { Baseline, Events, Input, Maybe, Span } from './types.ts';

/** Steps 1 to 6 and 9 of section 2 of the definitions, in their order, inside one span. */
export function findEvents(input: Input, F: Float64Array, span: Span): Maybe<Events> {
  const { fs } = input;
  const weight = input.load === 'weight';
  const w = round(input.baselineSeconds * fs);
  const v = round(input.anchorSeconds * fs);
  const free = (start: number, length: number) => !touches(input.gaps.open, start, start + length - 1);

  // 1. Anchor.
  let a = -1;
  let M = 0;
  for (let k = span.start; k + v <= span.end; k++) {
    if (!free(k, v)) continue;
    const m = mean(F, k, k + v);
    // Sums of equal samples may differ in the last digit; such means are equal, and the first counts.
    if (a === -1 || m > M + 1e-12 * Math.abs(M)) {
      a = k;
      M = m;
    }
  }
  if (a === -1) return { reason: span.end - span.start < v ? 'recording-too-short' : 'gap-in-interval' };
  const c = a + Math.floor(v / 2);

  // 2. Standing windows and the quiet level.
  let Q: number | undefined;
  for (let k = Math.max(span.start, Math.ceil(a - 10 * fs)); k + w <= a; k++) {
    if (!free(k, w)) continue;
    const m = mean(F, k, k + w);
    if (weight && m < 100) continue;
    if (weight && sd(F, k, k + w) > 0.15 * m) continue;
    if (Q === undefined || m < Q) Q = m;
  }
  const standing = Q !== undefined;
  if (Q === undefined) {
    if (!weight || input.bodyWeight === undefined) return { reason: 'no-standing-window' };
    Q = input.bodyWeight.value;
  }
  const H = Q + 0.5 * (M - Q);

  // 3. Half rise and end.
  let r = c - 1;
  while (r >= span.start && F[r]! > H) r--;
  if (r < span.start) return { reason: standing ? 'no-effort' : 'no-standing-window' };
  let e = c + 1;
  while (e < span.end && F[e]! > H) e++;
  if (e >= span.end) e = span.end - 1;

  // 4. Baseline.
  const baseline = standing ? findBaseline(input, F, span, r, w) : { reason: 'no-standing-window' };

  // 5. Peak.
  const p = indexOfLargest(F, r + 1, e);
  const Fp = F[p]!;

  // 6. Effort.
  if ('value' in baseline) {
    const { mean: B, sd: S } = baseline.value;
    if (Fp - B < (weight ? Math.max(10 * S, 50) : 10 * S)) return { reason: 'no-effort' };
  } else if (weight && Fp - Q < 50) {
    // Without a baseline the quiet level stands in for it.
    return { reason: 'no-effort' };
  }

  // 9. Start of the rise.
  const q = 'value' in baseline ? startOfRise(F, span, r, baseline.value.mean, Fp) : baseline;

  return { value: { span, a, c, M, Q, H, r, e, p, Fp, baseline, q } };
}

function findBaseline(input: Input, F: Float64Array, span: Span, r: number, w: number): Maybe<Baseline> {
  const { fs } = input;
  const weight = input.load === 'weight';
  const among: { k: number; m: number; s: number }[] = [];
  for (let k = span.start; k + w - 1 <= r; k++) {
    if (k + w - 1 < r - 3 * fs) continue;
    if (touches(input.gaps.open, k, k + w - 1)) continue;
    const m = mean(F, k, k + w);
    const s = sd(F, k, k + w);
    if (weight && (m < 100 || s > 0.05 * m)) continue;
    among.push({ k, m, s });
  }
  if (among.length === 0) return { reason: 'no-quiet-window' };
  let smallest = among[0]!.s;
  for (const window of among) if (window.s < smallest) smallest = window.s;
  let K = -1;
  for (const window of among) {
    const limit = weight ? Math.max(2 * smallest, 0.005 * window.m) : 2 * smallest;
    if (window.s <= limit) K = window.k;
  }
  const start = Math.max(K - samples(100, fs), among[0]!.k);
  // Kept clear of the rise, the window may have moved onto a gap.
  if (touches(input.gaps.open, start, start + w - 1)) return { reason: 'gap-in-interval' };
  return { value: { start, end: start + w, mean: mean(F, start, start + w), sd: sd(F, start, start + w) } };
}

function startOfRise(F: Float64Array, span: Span, r: number, B: number, Fp: number): Maybe<number> {
  for (let n = r - 1; n >= span.start; n--) if (F[n]! <= B + 0.1 * (Fp - B)) return { value: n };
  return { reason: 'onset-not-found' };
}
