import {
  call,
  type LabId,
  liveRoutes,
  type RigDraft,
  type RigTrouble,
  type SourceDescriptionDocument,
} from '@sthene/contract';
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

const every = 1_000;

export const rigsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['rigs', lab],
    queryFn: () => call(fetcher, base, liveRoutes.rigs, { params: { lab } }),
    refetchInterval: 3 * every,
  });

export const rigQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['rig', lab, id],
    queryFn: () => call(fetcher, base, liveRoutes.rig, { params: { lab, id } }),
    refetchInterval: every,
  });

export const sourcesQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['sources', lab],
    queryFn: () => call(fetcher, base, liveRoutes.sources, { params: { lab } }),
  });

/** Every state of a source description, newest first. */
export const sourceHistoryQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['sources', lab, 'history', id],
    queryFn: () => call(fetcher, base, liveRoutes.sourceHistory, { params: { lab, id } }),
  });

/** Lets something go wrong on virtual plates. */
export const troubleRig = (lab: LabId, id: string, trouble: RigTrouble, by: string) =>
  call(fetcher, base, liveRoutes.troubleRig, { params: { lab, id }, body: { trouble, by } });

export const serialPortsQuery = () =>
  queryOptions({ queryKey: ['serial-ports'], queryFn: () => call(fetcher, base, liveRoutes.serialPorts) });

/** Streams that answer in the network, or of one machine. */
export const streamsQuery = (lab: LabId, query: { readonly host?: string; readonly port?: number }) =>
  queryOptions({
    queryKey: ['streams', lab, query.host ?? '', query.port ?? 0],
    queryFn: () => call(fetcher, base, liveRoutes.streams, { params: { lab }, query }),
    gcTime: 60_000,
  });

/** Faults of a description, asked of the station, which knows what can be opened here. */
export const sourceCheckQuery = (lab: LabId, document: unknown) =>
  queryOptions({
    queryKey: ['source-check', lab, JSON.stringify(document)],
    queryFn: () =>
      call(fetcher, base, liveRoutes.checkSource, { params: { lab }, body: { description: document } as never }),
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 30_000,
  });

/** Goes on listening to a source while it is being described; the first call begins. */
export const listenSource = (lab: LabId, id: string, description: unknown) =>
  call(fetcher, base, liveRoutes.listenSource, { params: { lab, id }, body: { description } as never });

/** Lets go of the device. Goes out even while the page is being closed; the station also ends it by itself. */
export const stopListening = (lab: LabId, id: string) =>
  call((url, init) => fetcher(url, { ...init, keepalive: true } as never), base, liveRoutes.stopListening, {
    params: { lab, id },
  }).catch(() => undefined);

export function useKeepSource(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ id, ...body }: { id?: string | undefined; description: SourceDescriptionDocument; by: string }) =>
      id === undefined
        ? call(fetcher, base, liveRoutes.createSource, { params: { lab }, body })
        : call(fetcher, base, liveRoutes.changeSource, { params: { lab, id }, body }),
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: ['sources', lab] });
      await client.invalidateQueries({ queryKey: ['rigs', lab] });
    },
  });
}

export type RigAct =
  | { kind: 'keep'; id?: string | undefined; draft: RigDraft; by: string }
  | { kind: 'open' | 'close'; id: string; by: string };

/** Sets up, changes, opens or closes a rig; the answer is the rig as it then stands. */
export function useRigAct(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (act: RigAct) => {
      if (act.kind === 'keep') {
        const body = { ...act.draft, by: act.by };
        return act.id === undefined
          ? call(fetcher, base, liveRoutes.createRig, { params: { lab }, body })
          : call(fetcher, base, liveRoutes.changeRig, { params: { lab, id: act.id }, body });
      }
      return call(fetcher, base, act.kind === 'open' ? liveRoutes.openRig : liveRoutes.closeRig, {
        params: { lab, id: act.id },
        body: { by: act.by },
      });
    },
    onSuccess: async (rig) => {
      client.setQueryData(['rig', lab, rig.id], rig);
      await client.invalidateQueries({ queryKey: ['rigs', lab] });
    },
  });
}

/** Keeps the last seconds of a rig as a recording. */
export const keepLast = (lab: LabId, id: string, seconds: number, by: string) =>
  call(fetcher, base, liveRoutes.keepRecent, { params: { lab, id }, body: { seconds, note: '', by } });
