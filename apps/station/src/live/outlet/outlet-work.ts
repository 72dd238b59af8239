import type { RigOutlet } from '@sthene/contract';
import { problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';

/** Whether a rig offers what it measures, and who reads it. */
export async function showRigOutlet(live: LiveLab, rig: string): Promise<RigOutlet> {
  if ((await live.lab.store.rigs.get(rig)) === undefined) throw problems.notFound('rig');
  return live.outlets.view(rig);
}

/** Switches the offer of a rig on or off; an open rig follows at once. */
export async function switchRigOutlet(live: LiveLab, rig: string, on: boolean, by: string): Promise<RigOutlet> {
  if ((await live.lab.store.rigs.get(rig)) === undefined) throw problems.notFound('rig');
  await live.outlets.switch(rig, on, by);
  return live.outlets.view(rig);
}
