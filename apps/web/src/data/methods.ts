import { call, type LabId, methodRoutes, type NearestRequest, type PreviewRequest, routes } from '@sthene/contract';
import type { Method } from '@sthene/core';
import {
  keepPreviousData,
  queryOptions,
  useInfiniteQuery,
  useMutation,
  useQuery,
  useQueryClient,
} from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

export const methodsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['methods', lab],
    queryFn: () => call(fetcher, base, routes.methods, { params: { lab } }),
  });

/** A method never changes, so its document is fetched once. */
export const methodQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['method', lab, id],
    queryFn: async () => (await call(fetcher, base, routes.method, { params: { lab, id } })) as unknown as Method,
    staleTime: Number.POSITIVE_INFINITY,
  });

/** Asked again while a run is under way. */
export const runsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['recomputations', lab],
    queryFn: () => call(fetcher, base, methodRoutes.recomputations, { params: { lab } }),
    refetchInterval: (query) => (query.state.data?.some(({ state }) => state === 'running') ? 1_500 : false),
  });

export const runQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['recomputation', lab, id],
    queryFn: () => call(fetcher, base, methodRoutes.recomputation, { params: { lab, id } }),
    refetchInterval: (query) => (query.state.data?.state === 'running' ? 1_000 : false),
  });

/** Asked again while the station still goes through the values. */
export const comparisonQuery = (lab: LabId, id: string, enabled: boolean) =>
  queryOptions({
    queryKey: ['comparison', lab, id],
    queryFn: () => call(fetcher, base, methodRoutes.recomputationComparison, { params: { lab, id } }),
    enabled,
    refetchInterval: (query) => (query.state.data?.complete === false ? 500 : false),
  });

export const pairsQuery = (lab: LabId, id: string, metric: string, level: 'trial' | 'session') =>
  queryOptions({
    queryKey: ['pairs', lab, id, metric, level],
    queryFn: () =>
      call(fetcher, base, methodRoutes.recomputationPairs, { params: { lab, id }, query: { metric, level } }),
    placeholderData: keepPreviousData,
  });

interface Page {
  readonly next?: string | undefined;
}
const paged = { initialPageParam: '', getNextPageParam: (page: Page) => page.next };

export const useFlips = (lab: LabId, id: string, enabled: boolean) =>
  useInfiniteQuery({
    ...paged,
    queryKey: ['flips', lab, id],
    enabled,
    queryFn: ({ pageParam }) =>
      call(fetcher, base, methodRoutes.recomputationFlips, {
        params: { lab, id },
        query: pageParam === '' ? {} : { after: pageParam },
      }),
  });

export const useHandedOut = (lab: LabId, id: string) =>
  useQuery({
    queryKey: ['handed-out', lab, id],
    queryFn: () => call(fetcher, base, methodRoutes.recomputationReports, { params: { lab, id } }),
  });

export const useFailures = (lab: LabId, id: string) =>
  useInfiniteQuery({
    ...paged,
    queryKey: ['failures', lab, id],
    queryFn: ({ pageParam }) =>
      call(fetcher, base, methodRoutes.recomputationFailures, {
        params: { lab, id },
        query: pageParam === '' ? {} : { after: pageParam },
      }),
  });

/** The method of each trial's result, and which is the lab's. */
export const useMethods = (lab: LabId) => useQuery(methodsQuery(lab));

export const usePreview = (lab: LabId) =>
  useMutation({
    mutationFn: (body: Partial<PreviewRequest>) =>
      call(fetcher, base, methodRoutes.previewMethod, { params: { lab }, body: body as PreviewRequest }),
  });

export const useNearest = (lab: LabId) =>
  useMutation({
    mutationFn: (body: NearestRequest) => call(fetcher, base, methodRoutes.nearestMethod, { params: { lab }, body }),
  });

export function useSucceed(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: { after: string; document: Record<string, unknown>; by: string }) =>
      call(fetcher, base, methodRoutes.succeedMethod, { params: { lab }, body }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['methods', lab] }),
  });
}

export type RunAct =
  | { kind: 'start'; method: string; by: string }
  | { kind: 'pause' | 'resume'; id: string; by: string }
  | { kind: 'adopt' | 'discard'; id: string; by: string; reason: string };

/** Everything that is done to a run; the answer is the run as it then stands. */
export function useRunAct(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (act: RunAct) => {
      const r = methodRoutes;
      if (act.kind === 'start') {
        const { method, by } = act;
        return call(fetcher, base, r.startRecomputation, { params: { lab }, body: { method, by } });
      }
      const params = { lab, id: act.id };
      switch (act.kind) {
        case 'pause':
          return call(fetcher, base, r.pauseRecomputation, { params, body: { by: act.by } });
        case 'resume':
          return call(fetcher, base, r.resumeRecomputation, { params, body: { by: act.by } });
        case 'adopt':
          return call(fetcher, base, r.adoptRecomputation, { params, body: { by: act.by, reason: act.reason } });
        case 'discard':
          return call(fetcher, base, r.discardRecomputation, { params, body: { by: act.by, reason: act.reason } });
      }
    },
    onSuccess: async (run, act) => {
      client.setQueryData(['recomputation', lab, run.id], run);
      await client.invalidateQueries({ queryKey: ['recomputations', lab] });
      // Adopting changes what every other page shows.
      if (act.kind === 'adopt') await client.invalidateQueries();
    },
    onError: async (_, act) => {
      if ('id' in act) await client.invalidateQueries({ queryKey: ['recomputation', lab, act.id] });
    },
  });
}
