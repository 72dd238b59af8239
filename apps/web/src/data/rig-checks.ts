import {
  type CheckExtra,
  type CheckStepView,
  call,
  type LabId,
  type RigCheckBegin,
  type RigCheckSettings,
  rigCheckRoutes as r,
  type VirtualCheckAct,
} from '@sthene/contract';
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

export const rigChecksQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['rig-checks', lab, id],
    queryFn: () => call(fetcher, base, r.rigChecks, { params: { lab, id } }),
  });

export const rigCheckSettingsQuery = (lab: LabId) =>
  queryOptions({
    queryKey: ['rig-check-settings', lab],
    queryFn: () => call(fetcher, base, r.rigCheckSettings, { params: { lab } }),
  });

/** What the plates show now; asked a few times a second while a step waits. */
export const platesNowQuery = (lab: LabId, id: string) =>
  queryOptions({
    queryKey: ['plates-now', lab, id],
    queryFn: () => call(fetcher, base, r.platesNow, { params: { lab, id } }),
    refetchInterval: 300,
    staleTime: 0,
  });

/** What a correction would do to earlier sessions between two days. */
export const correctionEffectQuery = (
  lab: LabId,
  id: string,
  query: { correction: string; from: string; until: string },
) =>
  queryOptions({
    queryKey: ['correction-effect', lab, id, query],
    queryFn: () => call(fetcher, base, r.correctionEffect, { params: { lab, id }, query }),
    staleTime: 0,
  });

export type CheckAct =
  | { kind: 'begin'; body: RigCheckBegin }
  | { kind: 'read'; step: CheckStepView; typed?: number | undefined; anyway: boolean }
  | { kind: 'undo' }
  | { kind: 'extra'; extra: CheckExtra }
  | { kind: 'finish'; note: string; by: string }
  | { kind: 'drop' }
  | { kind: 'correct'; check?: string | undefined; plates: string[]; reason: string; by: string }
  | { kind: 'apply'; correction: string; from: string; until: string; reason: string; by: string };

/** One act of a check; what is known of the rig's checks is asked again after each. */
export function useCheckAct(lab: LabId, id: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async (act: CheckAct): Promise<unknown> => {
      const params = { lab, id };
      switch (act.kind) {
        case 'begin':
          return call(fetcher, base, r.beginRigCheck, { params, body: act.body });
        case 'read':
          return call(fetcher, base, r.readRigCheck, {
            params,
            body: {
              step: act.step,
              anyway: act.anyway,
              ...(act.typed === undefined ? {} : { typed: act.typed }),
            },
          });
        case 'undo':
          return call(fetcher, base, r.undoRigCheck, { params });
        case 'extra':
          return call(fetcher, base, r.extraRigCheck, { params, body: act.extra });
        case 'finish':
          return call(fetcher, base, r.finishRigCheck, { params, body: { note: act.note, by: act.by } });
        case 'drop':
          return call(fetcher, base, r.dropRigCheck, { params });
        case 'correct': {
          const { kind: _, check, ...body } = act;
          return call(fetcher, base, r.correctRig, {
            params,
            body: { ...body, ...(check === undefined ? {} : { check }) },
          });
        }
        case 'apply': {
          const { kind: _, ...body } = act;
          return call(fetcher, base, r.applyCorrection, { params, body });
        }
      }
    },
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: ['rig-checks', lab, id] });
      await client.invalidateQueries({ queryKey: ['rig', lab, id] });
      await client.invalidateQueries({ queryKey: ['correction-effect', lab, id] });
    },
  });
}

export function useKeepCheckSettings(lab: LabId) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (body: RigCheckSettings & { by: string }) =>
      call(fetcher, base, r.changeRigCheckSettings, { params: { lab }, body }),
    onSuccess: (settings) => client.setQueryData(['rig-check-settings', lab], settings),
  });
}

/** Puts masses on a place of a virtual plate. */
export const putMasses = (
  lab: LabId,
  id: string,
  body: { plate: string; spot: CheckStepView['spot']; masses: string[]; by: string },
) => call(fetcher, base, r.putMasses, { params: { lab, id }, body });

/** Does on virtual plates what a check needs somebody for. */
export const actOnVirtual = (lab: LabId, id: string, body: VirtualCheckAct) =>
  call(fetcher, base, r.actOnVirtual, { params: { lab, id }, body });
