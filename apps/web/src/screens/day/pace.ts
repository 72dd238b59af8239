import type { Day, LabId, RigView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { rigsQuery } from '../../data/rigs.ts';

/** How many times as fast as life the day goes: more than 1 only where every rig of it is virtual plates. */
export function paceOf(day: Pick<Day, 'rigs'>, rigs: readonly RigView[]): number {
  const speeds = rigs.filter(({ id }) => day.rigs.includes(id)).map(({ virtual }) => virtual?.speed ?? 1);
  return speeds.length === 0 ? 1 : Math.max(1, Math.min(...speeds));
}

/** The pace of a day as its rigs are set now. */
export const usePace = (lab: LabId, day: Pick<Day, 'rigs'>): number => paceOf(day, useQuery(rigsQuery(lab)).data ?? []);
