import { mean, samples, sd, touches } from './numbers.ts';
import type { Events, Input, Maybe, Onset } from './types.ts';

/** The automatic rules of section 2.8 of the definitions, and the line before the rise (docs, onset rules). */
export const rules = [
  'five-sd',
  'five-sd-floor',
  'three-sd',
  'percent-weight-2.5',
  'percent-weight-5',
  'percent-weight-10',
  'fixed-newton-20',
  'fixed-newton-40',
  'fixed-newton-50',
  'fixed-newton-75',
  'forward-five-sd',
  'slope',
  'local-line',
];

/** d of the table, for the rules that have one. */
function riseOf(rule: string, S: number, W: Maybe<{ value: number }>, weight: boolean): Maybe<number> {
  if (rule === 'five-sd' || rule === 'forward-five-sd') return { value: 5 * S };
  if (rule === 'five-sd-floor') return { value: weight ? Math.max(5 * S, 10) : 5 * S };
  if (rule === 'three-sd') return { value: 3 * S };
  const last = Number(rule.slice(rule.lastIndexOf('-') + 1));
  if (rule.startsWith('percent-weight-')) {
    return 'value' in W ? { value: (last / 100) * W.value.value } : W;
  }
  if (rule.startsWith('fixed-newton-')) return { value: last };
  throw new Error(`no such rule: ${rule}`);
}

/** Step 8 of section 2 of the definitions. */
export function findOnset(
  rule: string,
  input: Input,
  F: Float64Array,
  events: Events,
  W: Maybe<{ value: number }>,
): Maybe<Onset> {
  const { r, H, span } = events;
  const weight = input.load === 'weight';
  if (rule === 'local-line') return localLine(input, F, events);
  if ('reason' in events.baseline) return events.baseline;
  const { start, end, mean: B, sd: S } = events.baseline.value;
  if (rule === 'slope') {
    // The slope at r looks h samples past it.
    if (touches(input.gaps.open, start, r + samples(5, input.fs))) return { reason: 'gap-in-interval' };
    return slope(input, F, events, start, end);
  }
  const d = riseOf(rule, S, W, weight);
  if ('reason' in d) return d;
  if (touches(input.gaps.open, start, r)) return { reason: 'gap-in-interval' };
  const threshold = B + d.value;
  if (threshold >= H) return { reason: 'threshold-too-high' };
  if (rule === 'forward-five-sd') {
    const hold = samples(20, input.fs);
    for (let n = end; n + hold <= span.end; n++) {
      let above = 0;
      while (above < hold && F[n + above]! > threshold) above++;
      if (above === hold) return { value: { index: n, threshold } };
    }
    return { reason: 'onset-not-found' };
  }
  for (let j = r; j >= start; j--) if (F[j]! <= threshold) return { value: { index: j + 1, threshold } };
  return { reason: 'onset-not-found' };
}

function slope(input: Input, F: Float64Array, events: Events, start: number, end: number): Maybe<Onset> {
  const { fs } = input;
  const h = samples(5, fs);
  if (h < 1 || end - start < 2 * h + 2) return { reason: 'window-too-short' };
  const D = new Float64Array(F.length);
  for (let i = h; i + h < F.length; i++) D[i] = ((F[i + h]! - F[i - h]!) * fs) / (2 * h);
  const threshold = mean(D, start + h, end - h) + 5 * sd(D, start + h, end - h);
  for (let j = events.r; j >= start + h; j--) {
    if (D[j]! <= threshold) return { value: { index: j + 1, threshold } };
  }
  return { reason: 'onset-not-found' };
}

/** Where the mean of F over 2 h + 1 samples leaves the line fitted to it over the 250 ms that end at u. */
function localLine(input: Input, F: Float64Array, events: Events): Maybe<Onset> {
  const { r, H, q, span } = events;
  if ('reason' in q) return q;
  const h = samples(5, input.fs);
  const length = samples(250, input.fs);
  if (length < 3) return { reason: 'window-too-short' };
  const u = q.value - Math.max(length, r - q.value);
  const first = u - length;
  if (first - h < span.start) return { reason: 'onset-not-found' };
  if (touches(input.gaps.open, first - h, r + h)) return { reason: 'gap-in-interval' };
  const G = (n: number) => mean(F, n - h, n + h + 1);

  const middle = first + (length - 1) / 2;
  let level = 0;
  for (let n = first; n < u; n++) level += G(n) / length;
  let products = 0;
  let squares = 0;
  for (let n = first; n < u; n++) {
    products += (n - middle) * (G(n) - level);
    squares += (n - middle) * (n - middle);
  }
  const line = (n: number) => level + (products / squares) * (n - middle);
  let residuals = 0;
  for (let n = first; n < u; n++) residuals += (G(n) - line(n)) * (G(n) - line(n));
  const s = Math.sqrt(residuals / (length - 2));
  const d = input.load === 'weight' ? Math.max(4 * s, 5) : 4 * s;

  if (line(r) + d >= H) return { reason: 'threshold-too-high' };
  for (let j = r; j >= u; j--) {
    if (G(j) <= line(j) + d) return { value: { index: j + 1, threshold: line(j + 1) + d } };
  }
  return { reason: 'onset-not-found' };
}
