import type { TrialRow, TrialView } from '@sthene/contract';

/** All trials of the session in order, this one included whether or not the station lists it among its siblings. */
export function orderedSiblings(
  view: TrialView,
): Pick<TrialRow, 'id' | 'order' | 'state' | 'effort' | 'peakForce' | 'unit'>[] {
  const others = view.siblings.filter((row) => row.id !== view.id);
  const { id, order, state, effort } = view;
  return [...others, { id, order, state, effort, unit: 'N' }].sort((a, b) => a.order - b.order);
}
