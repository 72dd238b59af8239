import type { Campaign } from '../campaign.ts';
import { powerCut } from './power-cut.ts';
import { recoveryDeath } from './recovery-death.ts';

/** Every campaign, in the order of the promises. */
export const campaigns: readonly Campaign[] = [powerCut, recoveryDeath];
