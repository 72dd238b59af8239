import { isExpired } from './commands.ts';

/** The part of a cue that says when it is due. */
export interface Due {
  readonly id: string;
  /** Station clock, ms. */
  readonly at: number;
  readonly expires: number;
}

/**
 * Whether a cue may be heard or shown now: not twice, and not more than its second late. Without a measured clock its age is unknown;
 * it is then left out, because a cue at the wrong time makes an athlete pull alone.
 */
export function isDue(cue: Due, last: string | undefined, stationNow: number | undefined): boolean {
  return cue.id !== last && stationNow !== undefined && !isExpired(cue, stationNow);
}
