import { call, type LabId, liveRoutes, type OutletSettings } from '@sthene/contract';
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

/** What a lab lets leave as streams for other programs. */
export const outletSettingsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['outlet', lab],
    queryFn: () => call(fetcher, base, liveRoutes.outletSettings, { params: { lab } }),
  });

/** Whether a rig offers its forces and marks, and who reads them. */
export const rigOutletQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['outlet', lab, id],
    queryFn: () => call(fetcher, base, liveRoutes.rigOutlet, { params: { lab, id } }),
    refetchInterval: 3_000,
  });

type OutletAct =
  | { readonly kind: 'rig'; readonly on: boolean; readonly by: string }
  | ({ readonly kind: 'lab'; readonly by: string } & OutletSettings);

/** Offers the streams of a rig or not; or says, for the whole lab, how far they go and what they name. */
export function useOutletAct(lab: LabId, id: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async (act: OutletAct): Promise<void> => {
      const { by } = act;
      if (act.kind === 'rig')
        await call(fetcher, base, liveRoutes.changeRigOutlet, { params: { lab, id }, body: { on: act.on, by } });
      else {
        const { network, athleteCode } = act;
        await call(fetcher, base, liveRoutes.changeOutletSettings, {
          params: { lab },
          body: { network, athleteCode, by },
        });
      }
    },
    onSuccess: () => client.invalidateQueries({ queryKey: ['outlet', lab] }),
  });
}
