import type { Campaign } from '../campaign.ts';
import { freeze } from './freeze.ts';
import { kill, removeKillChild } from './kill.ts';
import { powerCut } from './power-cut.ts';
import { recomputeKill, removeRecomputeChild } from './recompute-kill.ts';
import { recoveryDeath } from './recovery-death.ts';
import { removeSessionChild, sessionKill } from './session-kill.ts';
import { smallDiskFull } from './small-disk.ts';
import { removeSpectatorsChild, spectators } from './spectators.ts';

/** Every campaign, in the order of the promises. */
export const campaigns: readonly Campaign[] = [
  kill,
  sessionKill,
  powerCut,
  recoveryDeath,
  smallDiskFull,
  freeze,
  spectators,
  recomputeKill,
];

/** Removes what campaigns built. */
export async function cleanUp(): Promise<void> {
  await removeKillChild();
  await removeSessionChild();
  await removeSpectatorsChild();
  await removeRecomputeChild();
}
