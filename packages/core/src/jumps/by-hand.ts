import type { Onset } from '../analysis/events.ts';
import type { AnalysisRequest } from '../analysis/request.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import type { SampleSpan } from '../recording/sample.ts';

/**
 * A person's onset of a jump: any instant of the span before take-off. What the rule found, and what it measured from, is kept
 * beside it.
 *
 * @returns `interval-past-end` for an instant outside; the rule's own reason when it found nothing to measure from
 */
export function placedOnset(
  { index, by, reason }: NonNullable<AnalysisRequest['onsetByHand']>,
  automatic: Outcome<Onset>,
  span: SampleSpan,
  takeOff: number,
): Outcome<Onset> {
  if (!automatic.ok) return automatic;
  if (!(index >= span.start && index < takeOff)) return lack('interval-past-end');
  return have({
    ...automatic.value,
    index,
    rule: 'by-hand',
    byHand: { by, reason, automatic: have(automatic.value.index) },
  });
}
