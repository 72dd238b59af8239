import type { Forces, Notice } from '@sthene/core';
import type { Session, Trial } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import type { OriginFacts } from '../live/rig/keep-trial.ts';
import { problems } from '../server/problem-error.ts';
import { forcesFrom } from './forces-from.ts';
import { liveFactsOf } from './live-facts.ts';
import { readRecording } from './read-recording.ts';

/** Forces as they were read, with what the reader had to say. */
export interface ReadForces {
  readonly forces: Forces;
  readonly notices: readonly Notice[];
}

/** The forces a trial was and will be analysed from: the original file, read as it was imported. */
export async function forcesOfTrial(lab: OpenLab, trial: Trial, session: Session): Promise<ReadForces> {
  const live = await liveFactsOf(lab, trial.id);
  // A correction of the rig that was taken over later changes the forces, not the trial.
  const corrected = live?.channels.map((one) => one.corrected?.id ?? '').join() ?? '';
  const key = `${lab.id}/${trial.id}/${trial.revision}/${corrected}`;
  const kept = recent.get(key);
  if (kept !== undefined) {
    recent.delete(key);
    recent.set(key, kept);
    return kept;
  }
  const read = await readForces(lab, trial, session, live);
  recent.set(key, read);
  for (const oldest of recent.keys()) {
    if (recent.size <= most) break;
    recent.delete(oldest);
  }
  return read;
}

/** The same without keeping anything for the next asker, for going through many trials. */
export async function readForces(
  lab: OpenLab,
  trial: Trial,
  session: Session,
  live: OriginFacts | undefined,
  read = readRecording,
): Promise<ReadForces> {
  if (trial.recording === undefined || trial.forceSelection === undefined)
    throw problems.notFound('recording of this trial');
  const recording = await read(lab, trial.recording, trial.recordingLabel ?? '', trial.reading ?? {});
  return { forces: forcesFrom(recording, trial, session, live), notices: recording.notices };
}

/** The last few trials looked at, so that moving an onset or overlaying does not read files again. */
const recent = new Map<string, ReadForces>();
const most = 12;
