import type { TrialRow, TrialView } from '@sthene/contract';

/** How this trial's peak force stands among the session's maximal trials that are not excluded: 0 is the highest. */
export function belowHighest(view: TrialView): number | undefined {
  const peak = view.result.metrics.peak_force;
  if (!peak || !('value' in peak) || view.effort !== 'maximal') return undefined;
  const others = view.siblings.filter(
    (row) =>
      row.id !== view.id &&
      row.effort === 'maximal' &&
      row.peakForce !== undefined &&
      row.unit === peak.unit &&
      (row.state === 'counts' || row.state === 'overruled'),
  );
  if (others.length === 0) return undefined;
  return Math.max(peak.value, ...others.map((row) => row.peakForce ?? 0)) - peak.value;
}

/** All trials of the session in order, this one included whether or not the station lists it among its siblings. */
export function orderedSiblings(
  view: TrialView,
): Pick<TrialRow, 'id' | 'order' | 'state' | 'effort' | 'peakForce' | 'unit'>[] {
  const others = view.siblings.filter((row) => row.id !== view.id);
  const { id, order, state, effort } = view;
  return [...others, { id, order, state, effort, unit: 'N' }].sort((a, b) => a.order - b.order);
}
