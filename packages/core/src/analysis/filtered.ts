import type { LowPassFilter } from '../methods/method.ts';
import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import type { Forces } from '../recording/forces.ts';
import type { Notice } from '../recording/notice.ts';
import { outsideSpans } from '../recording/spans.ts';
import { zeroLagLowPass } from '../signal/index.ts';

/**
 * The forces after a method's filter: every plate and sum, each gap-free piece by itself; open gaps keep what they hold.
 *
 * @returns the same forces without a filter; `not-defined` when the cut-off is not below half the sample rate
 */
export function filteredForces(forces: Forces, filter: LowPassFilter | undefined): Outcome<Forces> {
  if (filter === undefined) return have(forces);
  if (!(filter.cutoff < forces.sampleRate / 2)) return lack('not-defined');
  const pieces = outsideSpans([{ start: 0, end: forces.sampleCount }], forces.gaps.open);
  const done = new Map<Float64Array, Float64Array>();
  const smooth = (array: Float64Array): Float64Array => {
    const known = done.get(array) ?? zeroLagLowPass(array, forces.sampleRate, filter.cutoff, pieces);
    done.set(array, known);
    return known;
  };
  return have({
    ...forces,
    total: smooth(forces.total),
    ...(forces.left ? { left: smooth(forces.left) } : {}),
    ...(forces.right ? { right: smooth(forces.right) } : {}),
    plates: forces.plates.map((plate) => ({ ...plate, force: smooth(plate.force) })),
  });
}

/** What is said where a method's filter does not fit the rate. */
export const filterNotUsable = ({ sampleRate }: Forces, filter: LowPassFilter | undefined): Notice => ({
  code: 'filter-not-usable',
  message: `The method's filter needs more than ${2 * (filter?.cutoff ?? 0)} Hz; the recording has ${sampleRate} Hz.`,
});
