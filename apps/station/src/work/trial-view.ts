import type { CueHeard as CueAnswer, Decision as DecisionAnswer, TrialView } from '@sthene/contract';
import type { Decision } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import type { CueHeard } from '../live/cue-heard.ts';
import { problems } from '../server/problem-error.ts';
import { nameOf } from './people.ts';
import { ranBy, stateOf, trialRows } from './sessions.ts';

/** Everything the Trial screen shows but the curve. */
export async function trialView(lab: OpenLab, id: string): Promise<TrialView> {
  const view = await lab.store.trials.view(id);
  if (view === undefined || view.result === undefined || view.recording === undefined) throw problems.notFound('trial');
  const { trial, session, person, recording, result, effective } = view;
  return {
    id: trial.id,
    session: {
      id: session.id,
      startedAt: session.startedAt,
      protocol: session.protocol.id,
      setup: { ...session.setup },
      ...(await ranBy(lab, session)),
    },
    person: { id: person.id, name: nameOf(person), code: person.code },
    order: trial.position,
    effort: trial.effort,
    state: stateOf(view),
    recording: {
      sha256: recording.sha256,
      label: trial.recordingLabel ?? '',
      fileName: recording.fileName,
      format: recording.format,
      sampleRate: result.document.sampleRate,
      sampleCount: recording.sampleCount,
      importedAt: recording.importedAt,
    },
    ...(trial.span === undefined ? {} : { span: { ...trial.span } }),
    ...(await cueOf(lab, id)),
    result: result.document as TrialView['result'],
    provenance: {
      method: { ...result.document.method },
      application: result.application,
      computedAt: result.computedAt,
      recording: recording.sha256,
    },
    decisions: await Promise.all(view.decisions.map((one) => answer(lab, one))),
    ...(effective.undoable === undefined
      ? {}
      : { undo: { id: effective.undoable.id, words: words(effective.undoable) } }),
    ...(effective.redoable === undefined
      ? {}
      : {
          redo: {
            id: effective.redoable.id,
            words: words(view.decisions.find((one) => one.id === effective.redoable?.reverts)),
          },
        }),
    siblings: await trialRows(lab, view.siblings),
  };
}

/** How the cue of a live trial was given; an imported one says nothing of it. */
async function cueOf(lab: OpenLab, trial: string): Promise<{ readonly cueHeard?: CueAnswer }> {
  const origin = await lab.store.origins.ofTrial(trial);
  const { cueHeard: kept } = (origin?.facts ?? {}) as { cueHeard?: CueHeard };
  if (kept === undefined) return {};
  const { device, name, ...heard } = kept;
  return { cueHeard: { ...heard, ...(heard.way === 'station' ? {} : { device: name ?? device }) } };
}

async function answer(lab: OpenLab, one: Decision): Promise<DecisionAnswer> {
  return {
    id: one.id,
    kind: one.kind,
    ...(one.kind === 'onset-by-hand' ? { index: one.payload.index } : {}),
    reason: one.kind === 'note' ? one.payload.text : one.reason,
    by: await lab.nameOf(one.by),
    at: one.at,
    ...(one.reverts === undefined ? {} : { reverts: one.reverts }),
  };
}

const kindWords: Readonly<Record<Decision['kind'], string>> = {
  'onset-by-hand': 'onset placed by hand',
  'onset-automatic': 'back to the automatic onset',
  exclude: 'exclusion',
  restore: 'restoring',
  'overrule-counts': 'overruled to count',
  note: 'note',
  undo: 'undo',
  redo: 'redo',
};

const words = (decision: Decision | undefined): string => (decision === undefined ? '' : kindWords[decision.kind]);
