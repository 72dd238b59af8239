import type { Campaign } from '../campaign.ts';
import { freeze } from './freeze.ts';
import { kill, removeKillChild } from './kill.ts';
import { powerCut } from './power-cut.ts';
import { recoveryDeath } from './recovery-death.ts';
import { smallDiskFull } from './small-disk.ts';

/** Every campaign, in the order of the promises. */
export const campaigns: readonly Campaign[] = [kill, powerCut, recoveryDeath, smallDiskFull, freeze];

/** Removes what campaigns built. */
export const cleanUp = removeKillChild;
