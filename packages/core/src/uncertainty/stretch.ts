import type { TrialContext } from '../analysis/trial-context.ts';
import { have, type Outcome } from '../outcome.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { samplesIn } from '../signal/index.ts';

/** Kept before the baseline, s: where a force may last have been low. */
const margin = 1;

/**
 * The same trial on the stretch of its samples that values are made of, from a second before the baseline to the end of the effort; the
 * sample numbers count from its first. Disturbing a long recording then costs no more than disturbing the pull.
 */
export function stretchOf(trial: TrialContext): TrialContext {
  const { forces, events } = trial;
  const first = events.baseline.ok ? events.baseline.value.start : events.halfRise - samplesIn(1, forces.sampleRate);
  const start = Math.max(events.span.start, first - samplesIn(margin, forces.sampleRate));
  const end = Math.min(forces.sampleCount, events.end + 1);
  const cut = (force: Float64Array) => force.subarray(start, end);
  const moved = (gaps: readonly SampleSpan[]) =>
    gaps.map((gap) => ({ start: gap.start - start, end: gap.end - start })).filter((gap) => gap.end > 0);
  const cropped = {
    ...forces,
    sampleCount: end - start,
    total: cut(forces.total),
    ...(forces.left ? { left: cut(forces.left) } : {}),
    ...(forces.right ? { right: cut(forces.right) } : {}),
    plates: forces.plates.map((plate) => ({ ...plate, force: cut(plate.force) })),
    gaps: { filled: moved(forces.gaps.filled), open: moved(forces.gaps.open) },
  };
  const by = <T extends { readonly start: number; readonly end: number }>(span: T): T => ({
    ...span,
    start: span.start - start,
    end: span.end - start,
  });
  const onsetBy = <T extends { readonly index: number }>(outcome: Outcome<T>): Outcome<T> =>
    outcome.ok ? have({ ...outcome.value, index: outcome.value.index - start }) : outcome;
  const { baseline, riseStart, quietWindow: _, ...rest } = events;
  const onset = onsetBy(trial.onset);
  // No memo: what is disturbed must be computed afresh.
  const { memo: __, ...plain } = trial;
  return {
    ...plain,
    forces: cropped,
    unfiltered: cropped,
    onset,
    events: {
      ...rest,
      span: { start: 0, end: end - start },
      anchor: rest.anchor - start,
      halfRise: rest.halfRise - start,
      end: rest.end - start,
      peak: { ...rest.peak, index: rest.peak.index - start },
      baseline: baseline.ok ? have(by(baseline.value)) : baseline,
      riseStart: riseStart.ok ? have(riseStart.value - start) : riseStart,
      onset,
    },
  };
}
