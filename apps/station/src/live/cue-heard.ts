import type { ToStation } from '@sthene/contract';
import type { MonotonicNanoseconds } from '@sthene/core';
import { millisecondsOf } from './clock.ts';
import type { Client } from './hub/client.ts';
import type { LiveLab } from './live-lab.ts';

/** Who gave a cue and how its time is known; kept with the trial. Times in ms. */
export interface CueHeard {
  /** Id of the device that gave it, or `station`. */
  readonly device: string;
  /** What the device was called then. */
  readonly name?: string;
  readonly way: 'tone' | 'voice' | 'flash' | 'station';
  /** From the station asking for the cue to its being heard or seen. */
  readonly after: number;
  /** Delay of the device's output, contained in `after`. */
  readonly delay?: number;
  readonly delayFrom: 'measured' | 'stated' | 'unknown';
  /** The clocks of station and device agree to this: half the shortest round trip. */
  readonly clockWithin?: number;
}

/** A cue that is to sound. */
export interface PendingCue {
  readonly rig: string;
  /** Id by which the engine waits for it. */
  readonly engine: string;
  /** When the station asked for it. */
  readonly at: MonotonicNanoseconds;
  /** The earliest sounding reported so far. */
  first?: { readonly at: MonotonicNanoseconds; readonly how: CueHeard };
}

/** Several devices may sound a cue; the athlete follows the first. So long is waited for the others after a report, ms. */
const othersWithin = 100;

type Sounded = Extract<ToStation, { type: 'cue-sounded' }>;

/**
 * When a cue was heard, placed on the rig's samples by the device's own measurement of the clocks. Of several devices in the room
 * the one that sounded first counts.
 */
export function cueSounded(live: LiveLab, client: Client, message: Sounded): void {
  const pending = live.cues.get(message.cue);
  if (pending === undefined || client.device.role === 'viewer' || client.offset === undefined) return;
  const at = BigInt(Math.round((message.at + client.offset) * 1e6)) as MonotonicNanoseconds;
  const { roundTrip } = client;
  const how: CueHeard = {
    device: client.device.id,
    name: client.device.name,
    way: message.way ?? 'tone',
    after: round(millisecondsOf(at) - millisecondsOf(pending.at)),
    ...(message.delay === undefined ? {} : { delay: round(message.delay) }),
    delayFrom: message.delayFrom ?? 'unknown',
    ...(roundTrip === undefined ? {} : { clockWithin: round(roundTrip / 2) }),
  };
  const { first } = pending;
  if (first === undefined || at < first.at) pending.first = { at, how };
  if (first !== undefined) return;
  const settle = () => {
    if (pending.first !== undefined) heard(live, message.cue, pending.first.at, pending.first.how);
  };
  if (live.hub.clients.size < 2) settle();
  else setTimeout(settle, othersWithin).unref();
}

/** The station gave the cue itself: at once, and nobody knows better. */
export function cueByStation(live: LiveLab, cue: string): void {
  heard(live, cue, undefined, { device: 'station', way: 'station', after: 0, delayFrom: 'unknown' });
}

function heard(live: LiveLab, cue: string, at: MonotonicNanoseconds | undefined, how: CueHeard): void {
  const pending = live.cues.get(cue);
  const rig = pending && live.rigs.get(pending.rig)?.runtime;
  if (pending === undefined || rig === undefined) return;
  live.cues.delete(cue);
  const turn = live.turns.get(pending.rig);
  if (turn !== undefined) turn.cueHeard = how;
  rig.cueSounded(pending.engine, at, how);
}

const round = (ms: number): number => Math.round(100 * ms) / 100;
