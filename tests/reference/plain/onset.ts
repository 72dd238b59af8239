import { mean, samples, sd, touches } from './numbers.ts';
import type { Events, Input, Maybe, Onset } from './types.ts';

/** The automatic rules of section 2.8 of the definitions. */
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
  if (rule.startsWith('fixed-newton-')) return weight ? { value: last } : { reason: 'needs-body-weight' };
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
  if ('reason' in events.baseline) return events.baseline;
  const { start, end, mean: B, sd: S } = events.baseline.value;
  if (rule === 'slope') {
    if (touches(input.gaps.open, start, r)) return { reason: 'gap-in-interval' };
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
  const D = new Float64Array(F.length);
  for (let i = h; i + h < F.length; i++) D[i] = ((F[i + h]! - F[i - h]!) * fs) / (2 * h);
  const threshold = mean(D, start + h, end - h) + 5 * sd(D, start + h, end - h);
  for (let j = events.r; j >= start + h; j--) {
    if (D[j]! <= threshold) return { value: { index: j + 1, threshold } };
  }
  return { reason: 'onset-not-found' };
}
