import {
  type BatteryOrder,
  call,
  type Day,
  type DayDraft,
  type EntryState,
  type GateDraft,
  type LabId,
  liveRoutes,
  type PersonDraft,
  type PlannedEffort,
  type Readiness,
  routes,
} from '@sthene/contract';
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** A running day changes by itself; between the messages of the live connection it is asked for again. */
const openEvery = 2_000;
const plannedEvery = 15_000;

export const daysQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['days', lab],
    queryFn: () => call(fetcher, base, liveRoutes.days, { params: { lab } }),
  });

export const dayQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['day', lab, id],
    queryFn: () => call(fetcher, base, liveRoutes.day, { params: { lab, id } }),
    refetchInterval: (query) => (query.state.data?.status === 'open' ? openEvery : plannedEvery),
  });

export const squadsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['squads', lab],
    queryFn: () => call(fetcher, base, routes.squads, { params: { lab } }),
  });

/** The practice day of the example lab, made where there is none today. */
export function usePracticeDay() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (by: string) =>
      call(fetcher, base, liveRoutes.practiceDay, { params: { lab: 'example' }, body: { by } }),
    onSuccess: async (day) => {
      client.setQueryData(['day', 'example', day.id], day);
      await client.invalidateQueries({ queryKey: ['days', 'example'] });
    },
  });
}

export function useCreateDay(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: DayDraft) => call(fetcher, base, liveRoutes.createDay, { params: { lab }, body: body as never }),
    onSuccess: async (day) => {
      client.setQueryData(['day', lab, day.id], day);
      await client.invalidateQueries({ queryKey: ['days', lab] });
    },
  });
}

/** Changes what is planned. Tests, rigs and the way of cueing only while the day is not open. */
export function useChangeDay(lab: LabId, id: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: {
      handsFree?: boolean;
      heatSize?: number | null;
      battery?: BatteryOrder | null;
      title?: string;
      by: string;
    }) => call(fetcher, base, liveRoutes.changeDay, { params: { lab, id }, body: body as never }),
    onSuccess: (day) => client.setQueryData(['day', lab, id], day),
  });
}

export interface EntryPart {
  readonly readiness?: Readiness;
  readonly setup?: Record<string, string | number | boolean>;
  readonly notes?: string;
  readonly state?: Extract<EntryState, 'waiting' | 'warming-up' | 'left' | 'done'>;
  readonly fixedRig?: string | null;
  readonly remaining?: PlannedEffort[];
}

export type DayAct =
  | { kind: 'order'; entries: string[]; by: string }
  | { kind: 'add'; person: { id: string } | { create: PersonDraft }; test?: string; walkIn: boolean; by: string }
  | { kind: 'change'; entry: string; part: EntryPart; by: string }
  | { kind: 'remove'; entry: string }
  | { kind: 'open' | 'close'; by: string };

/** Everything that changes a day; the answer is the day as it then stands. */
export function useDayAct(lab: LabId, id: string) {
  const client = useQueryClient();
  const key = ['day', lab, id];
  const params = { lab, id };
  return useMutation({
    mutationFn: (act: DayAct): Promise<Day> => {
      switch (act.kind) {
        case 'order':
          return call(fetcher, base, liveRoutes.orderDay, { params, body: { entries: act.entries, by: act.by } });
        case 'add':
          return call(fetcher, base, liveRoutes.addEntry, {
            params,
            body: {
              person: act.person,
              ...(act.test === undefined ? {} : { test: act.test }),
              walkIn: act.walkIn,
              by: act.by,
            },
          });
        case 'change':
          return call(fetcher, base, liveRoutes.changeEntry, {
            params: { lab, id: act.entry },
            body: { ...act.part, by: act.by },
          });
        case 'remove':
          return call(fetcher, base, liveRoutes.removeEntry, { params: { lab, id: act.entry } });
        default:
          return call(fetcher, base, act.kind === 'open' ? liveRoutes.openDay : liveRoutes.closeDay, {
            params,
            body: { by: act.by },
          });
      }
    },
    // An answer that was asked for before this change must not overwrite it.
    onMutate: () => client.cancelQueries({ queryKey: key }),
    onSuccess: async (day, act) => {
      client.setQueryData(key, day);
      await client.invalidateQueries({ queryKey: ['days', lab] });
      if (act.kind === 'add') await client.invalidateQueries({ queryKey: ['people', lab] });
    },
    onError: () => client.invalidateQueries({ queryKey: key }),
  });
}

/** Gives a trial to whoever really did it. */
export function useChangeOwner(lab: LabId, day: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ trial, ...body }: { trial: string; person: string; reason: string; by: string }) =>
      call(fetcher, base, liveRoutes.changeOwner, { params: { lab, id: trial }, body }),
    onSuccess: () =>
      Promise.all(
        [
          ['day', lab, day],
          ['trial', lab],
          ['session', lab],
          ['sessions', lab],
        ].map((queryKey) => client.invalidateQueries({ queryKey })),
      ),
  });
}

export type GateAct =
  | { kind: 'add'; person: string; draft: GateDraft }
  | { kind: 'release'; gate: string; reason: string; by: string };

/** Records or lifts what keeps a person from an effort. */
export function useGateAct(lab: LabId, day: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (act: GateAct) =>
      act.kind === 'add'
        ? call(fetcher, base, liveRoutes.addGate, { params: { lab, id: act.person }, body: act.draft })
        : call(fetcher, base, liveRoutes.releaseGate, {
            params: { lab, id: act.gate },
            body: { by: act.by, reason: act.reason },
          }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['day', lab, day] }),
  });
}
