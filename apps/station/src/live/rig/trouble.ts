import type { LineFault } from '@sthene/capture';
import type { RigTrouble } from '@sthene/contract';
import { ProblemError, problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';

/** Samples from being asked to the beginning, so that it lies ahead whatever is just being played. */
const ahead = 200;

/** Each trouble from a sample on; counts are exact, so that what is recorded can be compared with them. */
const faults: Readonly<Record<RigTrouble, (from: number) => LineFault>> = {
  lost: (from) => ({ kind: 'lost', from, count: 40 }),
  doubled: (from) => ({ kind: 'doubled', from, packets: 3 }),
  late: (from) => ({ kind: 'late', from, count: 40, by: 400 }),
  swapped: (from) => ({ kind: 'swapped', from }),
  'counter-wrap': (from) => ({ kind: 'wrap', from }),
  stall: (from) => ({ kind: 'stall', from, count: 2000 }),
  unplug: (from) => ({ kind: 'unplug', from, count: 4000 }),
  saturation: (from) => ({ kind: 'saturation', side: 'right', from, count: 3000 }),
  drift: (from) => ({ kind: 'drift', side: 'left', from, count: 5000, newtons: 12 }),
  'wrong-rate': (from) => ({ kind: 'rate', from, hertz: 980 }),
  'right-rate': (from) => ({ kind: 'rate', from, hertz: 1000 }),
};

/** Lets something go wrong on virtual plates, so that one sees how it is caught. Refused for real plates and closed rigs. */
export async function troubleRig(
  live: LiveLab,
  id: string,
  trouble: RigTrouble,
): Promise<{ trouble: RigTrouble; from: number }> {
  if ((await live.lab.store.rigs.get(id)) === undefined) throw problems.notFound('rig');
  const open = live.rigs.get(id);
  if (open === undefined)
    throw new ProblemError(409, 'rig-is-closed', 'This rig is closed.', 'Open it, then try again.');
  const from = open.runtime.disturb((position) => faults[trouble](position + ahead));
  if (from === undefined)
    throw new ProblemError(
      409,
      'plates-are-real',
      'These plates are real, or several sources; nothing is made to go wrong on them.',
      'Try it on virtual plates.',
    );
  return { trouble, from };
}
