import { type Curve, call, callForBytes, decodeCurve, type LabId, routes } from '@sthene/contract';
import { queryOptions, useQuery } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** One trial with its result and decisions. */
export const trialQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['trial', lab, id],
    queryFn: () => call(fetcher, base, routes.trial, { params: { lab, id } }),
  });

/** The exact forces of a trial. They never change, so they are fetched once. */
export const curveQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['curve', lab, id],
    queryFn: async (): Promise<Curve> =>
      decodeCurve(await callForBytes(fetcher, base, routes.curve, { params: { lab, id } })),
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 5 * 60_000,
    structuralSharing: false,
  });

export const stationQuery = () =>
  queryOptions({ queryKey: ['station'], queryFn: () => call(fetcher, base, routes.station), staleTime: 60_000 });

export const sessionsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['sessions', lab],
    queryFn: () => call(fetcher, base, routes.sessions, { params: { lab } }),
  });

export const sessionQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['session', lab, id],
    queryFn: () => call(fetcher, base, routes.session, { params: { lab, id } }),
  });

export const useTrial = (lab: LabId, id: string) => useQuery(trialQuery(lab, id));
export const useCurve = (lab: LabId, id: string) => useQuery(curveQuery(lab, id));
export const useStation = () => useQuery(stationQuery());
