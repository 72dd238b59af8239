import { allChecks } from './checks.ts';
import { findEvents } from './events.ts';
import { allMetrics } from './metrics.ts';
import { samples } from './numbers.ts';
import { findOnset, rules } from './onset.ts';
import { filter } from './signal.ts';
import type { Events, Input, Judged, Maybe, Result, Span, Trial } from './types.ts';

/** Sections 1 to 4 of the definitions on one recording: its effort, or all of them in order of time. */
export function analysePlainly(input: Input): Result[] {
  const filtered = (G: Float64Array) =>
    input.filterCutoff === undefined ? G : filter(G, input.gaps.open, input.filterCutoff, input.fs);
  const F = filtered(input.total);
  const L = input.left && filtered(input.left);
  const R = input.right && filtered(input.right);
  const forces = { F, L, R };
  const span = input.span ?? { start: 0, end: F.length };

  const first = findEvents(input, F, span);
  if ('reason' in first) {
    return [{ span, reason: first.reason, metrics: {}, checks: {}, verdict: 'repeat' }];
  }
  const found = [first.value];
  if (input.efforts === 'all') {
    for (const piece of around(first.value, input.fs)) found.push(...furtherIn(input, F, piece, first.value));
  }
  found.sort((one, other) => one.r - other.r);
  const spans = found.map((events) => (input.efforts === 'all' ? closed(events, input.fs) : events.span));
  return found.map((events, i) => judge(input, forces, { ...events, span: spans[i]! }));
}

/** A trial closes 0.5 s after e. */
function closed({ span, e }: Events, fs: number): Span {
  return { start: span.start, end: Math.min(span.end, e + samples(500, fs) + 1) };
}

/** What lies before r - 1 s and after e + 0.5 s of an effort, inside the span it was sought in. */
function around({ span, r, e }: Events, fs: number): Span[] {
  return [
    { start: span.start, end: Math.ceil(r - fs) },
    { start: Math.floor(e + 0.5 * fs) + 1, end: span.end },
  ];
}

/** Further efforts while M - Q is at least 30 % of the first effort's and lasts 0.5 s above H. */
function furtherIn(input: Input, F: Float64Array, piece: Span, first: Events): Events[] {
  const next = findEvents(input, F, piece);
  if ('reason' in next) return [];
  const { M, Q, r, e } = next.value;
  if (M - Q < 0.3 * (first.M - first.Q)) return [];
  if ((e - r - 1) / input.fs < 0.5) return [];
  return [next.value, ...around(next.value, input.fs).flatMap((smaller) => furtherIn(input, F, smaller, first))];
}

function judge(input: Input, forces: Pick<Trial, 'F' | 'L' | 'R'>, events: Events): Result {
  const { F } = forces;
  const W = bodyWeight(input, events);
  const onsets: Record<string, Trial['onset']> = {};
  for (const rule of rules) onsets[rule] = findOnset(rule, input, F, events, W);
  const onset = input.onsetByHand === undefined ? onsets[input.onsetRule]! : byHand(input.onsetByHand, F, events);
  const trial: Trial = { input, ...forces, events, W, onset, onsets };
  const checks = allChecks(trial);
  return {
    span: events.span,
    events,
    W,
    onset,
    onsets,
    metrics: allMetrics(trial),
    checks,
    verdict: verdict(checks, onset),
  };
}

/** A person's onset; one outside the effort is none. */
function byHand(index: number, F: Float64Array, { span, e }: Events): Trial['onset'] {
  if (index < span.start || index > e) return { reason: 'onset-not-found' };
  return { value: { index, threshold: F[index]! } };
}

function bodyWeight(input: Input, events: Events): Trial['W'] {
  if (input.load === 'none') return { reason: 'needs-body-weight' };
  if (input.bodyWeight) return { value: input.bodyWeight };
  const { baseline } = events;
  return 'value' in baseline
    ? { value: { value: baseline.value.mean, from: 'baseline' } }
    : { reason: 'no-body-weight' };
}

/** A trial without an onset does not count by itself, whatever its checks could judge. */
function verdict(checks: Readonly<Record<string, Judged>>, onset: Trial['onset']): Result['verdict'] {
  const statuses = Object.values(checks).map((check) => check.status);
  if (statuses.includes('fail')) return 'repeat';
  return statuses.includes('warn') || 'reason' in onset ? 'look-again' : 'counts';
}

/** Reads a value that must be there. */
export function must<T>(maybe: Maybe<T>): T {
  if ('reason' in maybe) throw new Error(`no value: ${maybe.reason}`);
  return maybe.value;
}
