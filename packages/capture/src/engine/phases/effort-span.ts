import type { SampleSpan } from '@sthene/core';
import type { Machine } from '../machine.ts';

/** Kept before the setup was confirmed, s: what a baseline may need. */
const beforeReady = 3;

/**
 * What is kept of an effort: as far back as the rules say, but never before the last one ended, before whoever made it came, or long
 * before the setup was confirmed. What is taken here is not taken again.
 *
 * @param end first sample after the trial
 */
export function spanFrom(
  machine: Machine,
  effort: { readonly start: number; readonly standing: number },
  end: number,
): SampleSpan | undefined {
  const { rig, rules, readyFrom } = machine;
  if (rig === undefined) return undefined;
  const start = Math.max(
    rig.kept.oldest,
    machine.recordedTo,
    effort.standing,
    Math.floor(readyFrom - machine.samples(beforeReady)),
    Math.floor(effort.start - machine.samples(rules.pull.before)),
  );
  const span = { start, end: Math.max(end, start + 1) };
  machine.recordedTo = span.end;
  return span;
}
