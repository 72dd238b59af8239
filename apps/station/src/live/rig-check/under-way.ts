import { ProblemError } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import type { RigRuntime } from '../rig/rig-runtime.ts';
import { type KeptDraft, readDraft } from './draft-file.ts';

/** The open rig whose samples arrive. */
export function measuring(live: LiveLab, id: string): RigRuntime | undefined {
  const runtime = live.rigs.get(id)?.runtime;
  return runtime?.stream.state === 'measuring' ? runtime : undefined;
}

export function mustMeasure(live: LiveLab, id: string): RigRuntime {
  const runtime = measuring(live, id);
  if (runtime !== undefined) return runtime;
  throw new ProblemError(
    409,
    'rig-not-measuring',
    'This rig sends no samples.',
    'Open it, or type what its display shows.',
  );
}

/** The check that is being made on a rig; refused where there is none. */
export async function draftOf(live: LiveLab, id: string): Promise<KeptDraft> {
  const draft = await readDraft(live.lab, id);
  if (draft === undefined)
    throw new ProblemError(404, 'no-check-under-way', 'No check is being made on this rig.', 'Begin one.');
  return draft;
}
