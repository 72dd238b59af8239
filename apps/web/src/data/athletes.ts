import { type AthleteChange, call, type LabId, routes } from '@sthene/contract';
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** One metric of an athlete over time; the one shown before stays while another is on its way. */
export const athleteQuery = (lab: LabId, id: string, asked: { readonly test?: string; readonly metric?: string }) =>
  queryOptions({
    queryKey: ['athlete', lab, id, asked],
    queryFn: () => call(fetcher, base, routes.athlete, { params: { lab, id }, query: asked }),
    placeholderData: keepPreviousData,
  });

/** Where everybody of a squad stands. */
export const squadTableQuery = (
  lab: LabId,
  asked: {
    readonly squad?: string;
    readonly test?: string;
    readonly metric?: string;
    readonly against?: AthleteChange['reference'];
    readonly trails?: 'true';
  },
) =>
  queryOptions({
    queryKey: ['standing', lab, asked],
    queryFn: () => call(fetcher, base, routes.squadTable, { params: { lab }, query: asked }),
    placeholderData: keepPreviousData,
  });
