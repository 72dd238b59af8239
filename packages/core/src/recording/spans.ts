import type { SampleSpan } from './sample.ts';

/** Sorts spans and joins those that overlap or touch; empty ones vanish. */
export function joinSpans(spans: readonly SampleSpan[]): SampleSpan[] {
  const sorted = spans.filter((span) => span.end > span.start).sort((a, b) => a.start - b.start);
  const joined: { start: number; end: number }[] = [];
  for (const { start, end } of sorted) {
    const last = joined.at(-1);
    if (last !== undefined && start <= last.end) last.end = Math.max(last.end, end);
    else joined.push({ start, end });
  }
  return joined;
}

/** What is left of sorted, disjoint `spans` outside sorted, disjoint `holes`. */
export function outsideSpans(spans: readonly SampleSpan[], holes: readonly SampleSpan[]): SampleSpan[] {
  const rest: SampleSpan[] = [];
  for (const span of spans) {
    let start = span.start;
    for (const hole of holes) {
      if (hole.end <= start || hole.start >= span.end) continue;
      if (hole.start > start) rest.push({ start, end: hole.start });
      start = hole.end;
    }
    if (start < span.end) rest.push({ start, end: span.end });
  }
  return rest;
}
