import type { Baseline, Onset } from '../../analysis/events.ts';
import type { Outcome } from '../../outcome.ts';
import { have, lack } from '../../outcome.ts';
import type { Forces } from '../../recording/forces.ts';
import type { SampleIndex, SampleSpan } from '../../recording/sample.ts';
import { meanOf, roundHalfUp, sdOf, touchesGap } from '../../signal/index.ts';
import type { HandRule } from '../rule.ts';

/** A person's index, with name and reason. */
export const byHand: HandRule = {
  id: 'by-hand',
  version: 1,
  title: 'Placed by a person',
  definition: 'The sample a person chose, with name and reason; the automatic onset is kept beside it.',
  source: 'Practice; see Tillin et al. 2013 for visual onset (from memory)',
  automatic: false,
};

/** What `placeOnset` needs. */
export interface HandPlacement {
  readonly forces: Forces;
  readonly span: SampleSpan;
  /** e. */
  readonly end: SampleIndex;
  /** Length of a baseline, samples. */
  readonly width: number;
  /** The baseline of the automatic search, or why there is none. */
  readonly baseline: Outcome<Baseline>;
  readonly automatic: Outcome<Onset>;
  readonly placed: { readonly index: SampleIndex; readonly by: string; readonly reason: string };
}

/**
 * The onset a person placed, on the nearest whole sample.
 *
 * The threshold shown is the force there. Where the automatic search found no baseline, the evidence is the window that ends
 * right before the placed sample (as much of it as there is, at least two samples).
 *
 * @returns `onset-not-found` for an index outside the span or not before e; `no-quiet-window` when nothing lies before it
 */
export function placeOnset({ forces, span, end, width, baseline, automatic, placed }: HandPlacement): Outcome<Onset> {
  const index = roundHalfUp(placed.index);
  if (!(index >= span.start && index < end)) return lack('onset-not-found');
  const used = baseline.ok ? baseline : windowBefore(forces, Math.max(span.start, index - width), index);
  if (!used.ok) return used;
  return have({
    index,
    rule: byHand.id,
    threshold: forces.total[index] as number,
    thresholdUnit: forces.unit,
    baseline: used.value,
    search: { start: index, end: index + 1 },
    byHand: {
      by: placed.by,
      reason: placed.reason,
      automatic: automatic.ok ? have(automatic.value.index) : automatic,
    },
  });
}

function windowBefore(forces: Forces, start: number, end: number): Outcome<Baseline> {
  if (end - start < 2) return lack('no-quiet-window');
  if (touchesGap(forces, start, end - 1)) return lack('gap-in-interval');
  return have({ start, end, mean: meanOf(forces.total, start, end), sd: sdOf(forces.total, start, end) });
}
