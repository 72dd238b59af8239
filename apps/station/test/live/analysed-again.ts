import {
  type AnyMethod,
  analyse,
  defaultMethod,
  forcesOf,
  isJumpMethod,
  protocolRegistry,
  type Recording,
  type TrialResult,
} from '@sthene/core';
import { bytesOf, formatOf } from '@sthene/formats';
import type { Store, TrialOrigin } from '@sthene/store';
import { Labs } from '../../src/labs/labs.ts';

/** Opens the lab of a data folder beside the station, as another program would. */
export async function withStore<T>(folder: string, act: (store: Store) => Promise<T>): Promise<T> {
  const labs = new Labs({ data: folder, application: 'sthene test' });
  try {
    return await act((await labs.open('lab')).store);
  } finally {
    await labs.close();
  }
}

/** One stored live trial with what a reader of the file alone would compute. */
export interface CheckedTrial {
  readonly id: string;
  readonly stored: TrialResult;
  readonly again: TrialResult;
  readonly origin: TrialOrigin;
  readonly samples: number;
  readonly recording: Recording;
}

/** Reads every live trial of a store and analyses its recording again from the file. */
export async function analysedAgain(store: Store): Promise<CheckedTrial[]> {
  const checked: CheckedTrial[] = [];
  const { items } = await store.sessions.list({ limit: 500 });
  for (const { session } of items) {
    for (const trial of await store.trials.ofSession(session.id)) {
      const origin = await store.origins.ofTrial(trial.id);
      const stored = (await store.results.current(trial.id))?.document;
      const bytes = trial.recording && (await store.recordings.bytes(trial.recording));
      if (origin === undefined || stored === undefined || !bytes || trial.forceSelection === undefined) continue;
      const read = await formatOf('parquet')?.read(bytesOf(new Uint8Array(bytes), 'trial.parquet'), {});
      if (read?.ok !== true || read.recordings[0] === undefined) throw new Error('the recording cannot be read');
      const { recording } = read.recordings[0];
      const forces = forcesOf(recording, trial.forceSelection);
      const recipe = (await store.methods.get(stored.method.sha256))?.document as AnyMethod;
      const jumpMethod = isJumpMethod(recipe) ? recipe : undefined;
      const method = isJumpMethod(recipe) ? defaultMethod : recipe;
      if (!forces.ok) throw new Error(forces.reason);
      const facts = origin.facts as {
        bodyWeight?: number;
        unloaded?: { before: number; after: number };
        jumpSetup?: { boxHeight?: number };
      };
      const protocol = protocolRegistry.get(session.protocol.id);
      if (protocol === undefined) throw new Error('no such test');
      const again = analyse({
        forces: forces.value,
        protocol,
        method,
        gravity: session.gravity,
        efforts: 'largest',
        ...(facts.bodyWeight === undefined
          ? {}
          : { bodyWeight: { value: facts.bodyWeight, from: 'weighing' as const } }),
        ...(trial.cue === undefined ? {} : { cue: trial.cue }),
        ...(jumpMethod === undefined ? {} : { jumpMethod }),
        ...(facts.jumpSetup === undefined ? {} : { jumpSetup: facts.jumpSetup }),
        ...(facts.unloaded === undefined ? {} : { unloaded: facts.unloaded }),
      }).trials[0];
      checked.push({
        id: trial.id,
        stored,
        again: JSON.parse(JSON.stringify(again)) as TrialResult,
        origin,
        samples: recording.sampleCount,
        recording,
      });
    }
  }
  return checked;
}
