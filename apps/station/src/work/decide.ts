import type { DecisionDraft, TrialView } from '@sthene/contract';
import type { Actor, DecisionKind, NewDecision } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { ProblemError, problems } from '../server/problem-error.ts';
import { analyseTrial, versionsOf } from './analyse-trial.ts';
import { forcesOfTrial } from './forces-of-trial.ts';
import { liveFactsOf } from './live-facts.ts';
import { trialView } from './trial-view.ts';

/** Adds a person's decision; one that moves the onset is followed by a new result, the old one stays. */
export async function decide(lab: OpenLab, id: string, draft: DecisionDraft): Promise<TrialView> {
  const view = await lab.store.trials.view(id);
  if (view === undefined) throw problems.notFound('trial');
  const samples = view.recording?.sampleCount ?? 0;
  if (draft.kind === 'onset-by-hand' && (draft.index === undefined || draft.index >= samples)) {
    throw new ProblemError(
      400,
      'onset-outside',
      'The onset must lie inside the recording.',
      'Place it on the curve and save again.',
    );
  }
  const decision = toDecision(id, draft);
  const actor = await lab.actor(draft.by);
  await lab.store.decisions.add(decision, actor);
  if (movesOnset(decision.kind)) await judgeAgain(lab, id, actor);
  return trialView(lab, id);
}

/** Takes the last decision in force back, as a further decision. */
export async function undo(lab: OpenLab, id: string, by: string): Promise<TrialView> {
  const actor = await lab.actor(by);
  return follow(lab, id, actor, await lab.store.decisions.undo(id, actor));
}

/** Does again what was taken back, as a further decision. */
export async function redo(lab: OpenLab, id: string, by: string): Promise<TrialView> {
  const actor = await lab.actor(by);
  return follow(lab, id, actor, await lab.store.decisions.redo(id, actor));
}

async function follow(
  lab: OpenLab,
  id: string,
  actor: Actor,
  done: { readonly reverts?: string } | undefined,
): Promise<TrialView> {
  if (done === undefined)
    throw new ProblemError(
      409,
      'nothing-to-undo',
      'There is nothing left to take back or to do again.',
      'Look at the history below the values.',
    );
  await judgeAgain(lab, id, actor);
  return trialView(lab, id);
}

/** Appends a result under the decisions now in force, if it differs from the newest one in where the pull begins. */
async function judgeAgain(lab: OpenLab, id: string, actor: Actor): Promise<void> {
  const view = await lab.store.trials.view(id);
  if (view?.result === undefined) return;
  const before = view.result.document.onset;
  const wanted = view.effective.onsetByHand?.payload.index;
  const now = before.ok && before.value.byHand ? before.value.index : undefined;
  if (wanted === now) return;
  const method = (await lab.store.methods.get(view.result.method))?.document;
  if (method === undefined) throw problems.notFound('method');
  const { forces } = await forcesOfTrial(lab, view.trial, view.session);
  const live = await liveFactsOf(lab, id);
  const document = await analyseTrial(lab, forces, view.trial, view.session, method, view.effective, live);
  const kept = await lab.store.transaction(async (inside) => {
    // Another result may have come into force meanwhile, by another method: then this one would turn it back.
    if ((await inside.results.current(id))?.id !== view.result?.id) return false;
    await inside.results.add({ trial: id, document, versions: versionsOf(document) }, actor);
    return true;
  });
  if (!kept) await judgeAgain(lab, id, actor);
}

const movesOnset = (kind: DecisionKind) => kind === 'onset-by-hand' || kind === 'onset-automatic';

function toDecision(trial: string, draft: DecisionDraft): NewDecision {
  const base = { trial, reason: draft.reason };
  switch (draft.kind) {
    case 'onset-by-hand':
      return { ...base, kind: 'onset-by-hand', payload: { index: draft.index as number } };
    case 'exclude':
      return { ...base, kind: 'exclude', payload: { category: draft.category ?? 'other' } };
    case 'note':
      return { ...base, kind: 'note', payload: { text: draft.reason } };
    default:
      return { ...base, kind: draft.kind, payload: {} };
  }
}
