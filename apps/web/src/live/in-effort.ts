import type { LivePhase } from '@sthene/contract';

/** True while a pull or a jump is made. */
export const inEffort = (phase: LivePhase | undefined): boolean => phase === 'pull' || phase === 'jump';
