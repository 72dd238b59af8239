import {
  type AthleteNoteDraft,
  type BlindReadingDraft,
  type BlindStudyDraft,
  call,
  type FollowRules,
  followRoutes,
  type LabId,
} from '@sthene/contract';
import { keepPreviousData, queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

interface Asked {
  readonly squad?: string;
  readonly test?: string;
  readonly metric?: string;
}

/** What a coach should act on. */
export const todayQuery = (lab: LabId, query: { readonly squad?: string; readonly on?: string }) =>
  queryOptions({
    queryKey: ['today', lab, query],
    queryFn: () => call(fetcher, base, followRoutes.today, { params: { lab }, query }),
    placeholderData: keepPreviousData,
  });

/** What a test can confirm before anybody pulls. */
export const beforeQuery = (lab: LabId, query: Asked) =>
  queryOptions({
    queryKey: ['before', lab, query],
    queryFn: () => call(fetcher, base, followRoutes.before, { params: { lab }, query }),
    placeholderData: keepPreviousData,
  });

export const byRuleQuery = (lab: LabId, query: Asked & { readonly sessions: number }) =>
  queryOptions({
    queryKey: ['by-rule', lab, query],
    queryFn: () => call(fetcher, base, followRoutes.reliabilityByRule, { params: { lab }, query }),
    placeholderData: keepPreviousData,
  });

export const normsQuery = (lab: LabId, query: Omit<Asked, 'squad'>) =>
  queryOptions({
    queryKey: ['norms', lab, query],
    queryFn: () => call(fetcher, base, followRoutes.norms, { params: { lab }, query }),
    placeholderData: keepPreviousData,
  });

/** Published values of other people. */
export const publishedQuery = (lab: LabId, query: Omit<Asked, 'squad'>) =>
  queryOptions({
    queryKey: ['published', lab, query],
    queryFn: () => call(fetcher, base, followRoutes.publishedNorms, { params: { lab }, query }),
    placeholderData: keepPreviousData,
  });

/** Place of one value in one published group. */
export const placeQuery = (lab: LabId, id: string, query: { readonly value: number; readonly unit: string }) =>
  queryOptions({
    queryKey: ['published', lab, id, query],
    queryFn: () => call(fetcher, base, followRoutes.publishedPlace, { params: { lab, id }, query }),
    retry: false,
  });

export const asymmetryQuery = (lab: LabId, id: string, query: { readonly test?: string }) =>
  queryOptions({
    queryKey: ['asymmetry', lab, id, query],
    queryFn: () => call(fetcher, base, followRoutes.asymmetry, { params: { lab, id }, query }),
    placeholderData: keepPreviousData,
  });

export const curvesQuery = (lab: LabId, id: string, sessions: readonly string[]) =>
  queryOptions({
    queryKey: ['curves', lab, id, sessions],
    queryFn: () =>
      call(fetcher, base, followRoutes.curves, { params: { lab, id }, query: { sessions: sessions.join(',') } }),
    placeholderData: keepPreviousData,
  });

/** What an athlete's tests say together. */
export const batteryQuery = (
  lab: LabId,
  id: string,
  query: { readonly on?: string; readonly apart?: number; readonly pushOff?: number },
) =>
  queryOptions({
    queryKey: ['battery', lab, id, query],
    queryFn: () => call(fetcher, base, followRoutes.battery, { params: { lab, id }, query }),
    placeholderData: keepPreviousData,
  });

export const returnQuery = (
  lab: LabId,
  id: string,
  query: { readonly injury?: string; readonly limb?: 'left' | 'right'; readonly metric?: string },
) =>
  queryOptions({
    queryKey: ['return', lab, id, query],
    queryFn: () => call(fetcher, base, followRoutes.returnAfterInjury, { params: { lab, id }, query }),
    placeholderData: keepPreviousData,
  });

export const notesQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['notes', lab, id],
    queryFn: () => call(fetcher, base, followRoutes.athleteNotes, { params: { lab, id } }),
  });

export const followRulesQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['follow-rules', lab],
    queryFn: () => call(fetcher, base, followRoutes.followRules, { params: { lab } }),
  });

/** Does something and asks anew for everything that follows athletes: most of it depends on each other. */
function useFollowAct<T, R>(act: (input: T) => Promise<R>) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: act,
    onSuccess: () => {
      const stale = new Set([
        'today',
        'athlete',
        'standing',
        'reliability',
        'before',
        'notes',
        'return',
        'follow-rules',
        'blind',
      ]);
      void client.invalidateQueries({ predicate: ({ queryKey }) => stale.has(String(queryKey[0])) });
    },
  });
}

export const useAddNote = (lab: LabId, id: string) =>
  useFollowAct((body: AthleteNoteDraft) =>
    call(fetcher, base, followRoutes.addAthleteNote, { params: { lab, id }, body }),
  );

export const useChangeNote = (lab: LabId) =>
  useFollowAct(({ id, ...body }: Omit<AthleteNoteDraft, 'kind'> & { id: string; revision: number }) =>
    call(fetcher, base, followRoutes.changeAthleteNote, { params: { lab, id }, body }),
  );

export const useTakeNoteBack = (lab: LabId) =>
  useFollowAct(({ id, ...body }: { id: string; reason: string; by: string }) =>
    call(fetcher, base, followRoutes.takeBackAthleteNote, { params: { lab, id }, body }),
  );

export const useChangeRules = (lab: LabId) =>
  useFollowAct((body: FollowRules & { by: string }) =>
    call(fetcher, base, followRoutes.changeFollowRules, { params: { lab }, body }),
  );

export const useAdopt = (lab: LabId) =>
  useFollowAct(
    (body: {
      test: string;
      metric: string;
      squad?: string;
      sessions: number;
      shown: number;
      reason: string;
      by: string;
    }) => call(fetcher, base, followRoutes.adopt, { params: { lab }, body }),
  );

export const useEndAdoption = (lab: LabId) =>
  useFollowAct(({ id, ...body }: { id: string; reason: string; by: string }) =>
    call(fetcher, base, followRoutes.endAdoption, { params: { lab, id }, body }),
  );

export const blindStudiesQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['blind', lab],
    queryFn: () => call(fetcher, base, followRoutes.blindStudies, { params: { lab } }),
  });

/** Never from memory: the next trial is another one after each reading. */
export const blindTaskQuery = (lab: LabId, id: string, reader: number) =>
  queryOptions({
    queryKey: ['blind', lab, id, 'next', reader],
    queryFn: () => call(fetcher, base, followRoutes.blindTask, { params: { lab, id }, query: { reader } }),
    staleTime: 0,
    refetchOnWindowFocus: false,
  });

export const blindResultsQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['blind', lab, id, 'results'],
    queryFn: () => call(fetcher, base, followRoutes.blindResults, { params: { lab, id } }),
    retry: false,
  });

export const useCreateBlindStudy = (lab: LabId) =>
  useFollowAct((body: BlindStudyDraft) =>
    call(fetcher, base, followRoutes.createBlindStudy, { params: { lab }, body }),
  );

export function useReadBlind(lab: LabId, id: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: BlindReadingDraft & { by: string }) =>
      call(fetcher, base, followRoutes.readBlind, { params: { lab, id }, body }),
    onSuccess: (task) => client.setQueryData(['blind', lab, id, 'next', task.reader], task),
  });
}

export const useCloseBlindStudy = (lab: LabId, id: string) =>
  useFollowAct((by: string) =>
    call(fetcher, base, followRoutes.closeBlindStudy, { params: { lab, id }, body: { by } }),
  );
