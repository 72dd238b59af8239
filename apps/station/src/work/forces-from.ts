import { type Forces, forcesOf, protocolRegistry, type Recording, reasons, unitOfForces } from '@sthene/core';
import type { Session, Trial } from '@sthene/store';
import { forcesOfLive } from '../live/rig/forces-of-live.ts';
import type { OriginFacts } from '../live/rig/keep-trial.ts';
import { ProblemError, problems } from '../server/problem-error.ts';

/** The forces of a trial from its recording: as they were chosen at the import, or as they were live. */
export function forcesFrom(
  recording: Recording,
  trial: Pick<Trial, 'forceSelection'>,
  session: Pick<Session, 'protocol'>,
  live: OriginFacts | undefined,
): Forces {
  if (trial.forceSelection === undefined) throw problems.notFound('recording of this trial');
  const protocol = protocolRegistry.get(session.protocol.id);
  if (protocol === undefined) throw problems.notFound('test');
  const forces =
    live === undefined
      ? forcesOf(recording, trial.forceSelection, unitOfForces(recording, trial.forceSelection, protocol))
      : forcesOfLive(recording, live);
  if (!forces.ok) throw new ProblemError(422, forces.reason, reasons[forces.reason].means, reasons[forces.reason].next);
  return forces.value;
}
