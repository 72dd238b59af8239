import type { LabId, TrialView } from '@sthene/contract';
import { useQueries } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { Pyramid } from '../../curve/pyramid.ts';
import { curveQuery, trialQuery } from '../../data/queries.ts';
import { type OtherTrial, valuesOf } from './curve-model.ts';

export interface Overlays {
  readonly chosen: readonly string[];
  toggle(id: string): void;
  /** Ready to draw, in the order they were chosen. */
  readonly loaded: readonly OtherTrial[];
  readonly waiting: readonly string[];
  readonly failed: readonly string[];
}

/** Other trials to draw over this one; each is fetched when it is chosen. */
export function useOverlays(lab: LabId, view: TrialView): Overlays {
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const views = useQueries({ queries: chosen.map((id) => trialQuery(lab, id)) });
  const curves = useQueries({ queries: chosen.map((id) => curveQuery(lab, id)) });
  const ready = chosen.map((_, i) => [views[i]?.data, curves[i]?.data] as const);
  // The pair of answers decides what is drawn; everything else about a query may change without a new picture.
  const key = ready.flat();
  const loaded = useMemo(
    () =>
      ready.flatMap(([other, curve]): OtherTrial[] => {
        const total = curve && valuesOf(curve, 'total');
        return other && curve && total && view.result.onset.ok
          ? [{ view: other, curve, pyramid: new Pyramid(total) }]
          : [];
      }),
    [view.result.onset.ok, chosen, ...padded(key)],
  );
  return {
    chosen,
    toggle: (id) => setChosen((now) => (now.includes(id) ? now.filter((one) => one !== id) : [...now, id])),
    loaded,
    waiting: chosen.filter((_, i) => views[i]?.isPending || curves[i]?.isPending),
    failed: chosen.filter((_, i) => views[i]?.isError || curves[i]?.isError),
  };
}

/** React wants dependency lists of one length. */
const padded = (list: readonly unknown[]): unknown[] => Array.from({ length: 40 }, (_, i) => list[i]);
