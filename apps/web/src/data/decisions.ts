import { call, type DecisionDraft, type LabId, routes, type TrialView } from '@sthene/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { base, fetcher } from './station.ts';

export type TrialAct =
  | { kind: 'decide'; draft: DecisionDraft }
  | { kind: 'undo'; by: string }
  | { kind: 'redo'; by: string };

/** Sends a decision, an undo or a redo; the answer is the trial as it then stands. */
export function useTrialAct(lab: LabId, id: string) {
  const client = useQueryClient();
  const params = { lab, id };
  return useMutation({
    mutationFn: (act: TrialAct): Promise<TrialView> =>
      act.kind === 'decide'
        ? call(fetcher, base, routes.decide, { params, body: act.draft })
        : call(fetcher, base, act.kind === 'undo' ? routes.undo : routes.redo, { params, body: { by: act.by } }),
    onSuccess: async (view) => {
      client.setQueryData(['trial', lab, id], view);
      // Siblings and summaries show this trial's state too.
      await Promise.all([
        client.invalidateQueries({ queryKey: ['session', lab] }),
        client.invalidateQueries({ queryKey: ['sessions', lab] }),
        client.invalidateQueries({ queryKey: ['trial', lab], predicate: (query) => query.queryKey[2] !== id }),
      ]);
    },
  });
}
