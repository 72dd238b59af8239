import type { RigFloor } from '@sthene/contract';
import { inEffort } from '../live/in-effort.ts';

/** A film under way, as far as it decides when to end. Times on the device's clock, ms. */
export interface Under {
  readonly turn: string;
  readonly since: number;
  /** The pull has begun: what is filmed is worth keeping. */
  readonly pulled: boolean;
  /** When it is to end; set once the pull is over. */
  readonly endAt?: number;
}

export type Act = 'start' | 'keep' | 'discard';

/** The film goes on that long after the pull, ms. */
export const afterPull = 2000;
/** Waiting for a pull that does not come, a film is begun anew after this, ms: nobody wants minutes of somebody standing. */
export const longestWait = 60_000;
/** Without word from the station a film ends after this, ms. */
export const blindFor = 20_000;

const begins: ReadonlySet<RigFloor['phase']> = new Set(['ready', 'cue', 'pull', 'jump']);

/**
 * What a camera does now: it begins when a turn is ready, so that it has seen the athlete take the bar before the pull, and ends two
 * seconds after the pull. A film of an effort that did not come is thrown away.
 *
 * @param heardAt when the station was last heard
 */
export function follow(
  under: Under | undefined,
  floor: RigFloor | undefined,
  now: number,
  heardAt: number,
): { readonly under: Under | undefined; readonly act?: Act } {
  const allowed = floor?.film?.allowed === true;
  if (under === undefined) {
    const { turn } = floor ?? {};
    if (!allowed || turn === undefined || floor === undefined || !begins.has(floor.phase) || now - heardAt > blindFor)
      return { under };
    return { under: { turn: turn.id, since: now, pulled: inEffort(floor.phase) }, act: 'start' };
  }
  const end = (act: Act) => ({ under: undefined, act });
  if (floor !== undefined && floor.turn?.id === under.turn && !allowed) return end('discard');
  if (under.endAt !== undefined) return now >= under.endAt ? end('keep') : { under };
  if (now - heardAt > blindFor) return end(under.pulled ? 'keep' : 'discard');
  const same = floor?.turn?.id === under.turn;
  if (same && inEffort(floor?.phase)) return { under: under.pulled ? under : { ...under, pulled: true } };
  if (under.pulled) return { under: { ...under, endAt: now + afterPull } };
  if (!same || floor === undefined || !begins.has(floor.phase) || now - under.since > longestWait)
    return end('discard');
  return { under };
}
