import { type Forces, forcesOf, type Notice, protocolRegistry, reasons, unitOfForces } from '@sthene/core';
import type { Session, Trial } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { forcesOfLive, type OriginFacts } from '../live/rig/keep-trial.ts';
import { ProblemError, problems } from '../server/problem-error.ts';
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
  const protocol = protocolRegistry.get(session.protocol.id);
  if (protocol === undefined) throw problems.notFound('test');
  const forces =
    live === undefined
      ? forcesOf(recording, trial.forceSelection, unitOfForces(recording, trial.forceSelection, protocol))
      : forcesOfLive(recording, live);
  if (!forces.ok) throw new ProblemError(422, forces.reason, reasons[forces.reason].means, reasons[forces.reason].next);
  return { forces: forces.value, notices: recording.notices };
}

/** The last few trials looked at, so that moving an onset or overlaying does not read files again. */
const recent = new Map<string, ReadForces>();
const most = 12;
