import { type Curve, call, callForBytes, decodeCurve, type LabId, routes } from '@sthene/contract';
import { queryOptions, useQuery } from '@tanstack/react-query';
import { base, fetcher, problemOf } from './station.ts';

/** Tries for a trial that is not there, one after the other; about six seconds. */
const triesForTrial = 14;
/** ms. */
const trialAgain = 400;

/** Whether the station says that there is no such trial. */
export const isMissing = (error: unknown): boolean => error != null && problemOf(error).code === 'not-found';

/** A verdict is told before its trial is written, so one that is not there is waited for; anything else is tried once more. */
export const tryTrialAgain = (failures: number, error: unknown): boolean =>
  failures < (isMissing(error) ? triesForTrial : 1);

const ofTrial = { retry: tryTrialAgain, retryDelay: trialAgain };

/** One trial with its result and decisions. */
export const trialQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['trial', lab, id],
    queryFn: () => call(fetcher, base, routes.trial, { params: { lab, id } }),
    ...ofTrial,
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
    ...ofTrial,
  });

/** How sure each value of a trial's result is; asked again when the result is another one. */
export const uncertaintyQuery = (lab: LabId, id: string, computedAt: string) =>
  queryOptions({
    queryKey: ['uncertainty', lab, id, computedAt],
    queryFn: () => call(fetcher, base, routes.uncertainty, { params: { lab, id } }),
    retry: false,
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
/** Asked again after a decision: the parts of a trial follow its onset. */
export const usePressure = (lab: LabId, id: string, computedAt: string) =>
  useQuery({
    queryKey: ['pressure', lab, id, computedAt],
    queryFn: () => call(fetcher, base, routes.pressure, { params: { lab, id } }),
    staleTime: Number.POSITIVE_INFINITY,
  });
export const useUncertainty = (lab: LabId, id: string, computedAt: string) =>
  useQuery(uncertaintyQuery(lab, id, computedAt));
export const useStation = () => useQuery(stationQuery());
