import { removeBuilt } from '../../built-child.ts';
import type { Campaign } from '../campaign.ts';
import { freeze } from './freeze.ts';
import { kill } from './kill.ts';
import { powerCut } from './power-cut.ts';
import { recomputeKill, removePreparedLab } from './recompute-kill.ts';
import { recoveryDeath } from './recovery-death.ts';
import { sessionKill } from './session-kill.ts';
import { smallDiskFull } from './small-disk.ts';
import { spectators } from './spectators.ts';

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
  await removePreparedLab();
  await removeBuilt();
}
