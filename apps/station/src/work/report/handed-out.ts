import type { AthleteChange } from '@sthene/contract';
import type { HandedOut } from '@sthene/store';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';

/** What a page says of an athlete. */
export type Says = Omit<HandedOut, 'id' | 'at'>;

/** What a report is made of, and what it says of whom. */
export interface Said<Input> {
  readonly input: Input;
  readonly says: readonly Says[];
}

/** Keeps what a page that leaves the lab says of athletes, so that a change of method can tell which pages would now read differently. */
export async function keepHandedOut(lab: OpenLab, says: readonly Says[]): Promise<void> {
  if (says.length > 0) await lab.store.handedOut.add(says, stationActor);
}

/** One athlete on a page. */
export function saysOf(
  kind: Says['kind'],
  {
    metric,
    change,
    ...of
  }: Pick<Says, 'person' | 'session' | 'value' | 'test' | 'reference'> & {
    readonly metric: { readonly id: string; readonly unit: string };
    readonly change: AthleteChange | undefined;
  },
): Says {
  return {
    ...{ kind, ...of, metric: metric.id, unit: metric.unit },
    ...(change === undefined ? {} : { word: change.word }),
  };
}
