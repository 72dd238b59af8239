import { AsyncLocalStorage } from 'node:async_hooks';
import type { LabId, LiveRole } from '@sthene/contract';
import type { FastifyRequest } from 'fastify';
import type { Rank } from './rights.ts';

/** A device that showed a good token. */
export interface CallingDevice {
  readonly id: string;
  readonly name: string;
  readonly role: LiveRole;
  /** It was paired with this lab and knows no other. */
  readonly lab: LabId;
}

/** Who asks: the machine itself, a paired device, or somebody on the network. */
export interface Caller {
  readonly rank: Rank;
  readonly device?: CallingDevice;
  /** Nobody any more: its token was good until it was taken off. */
  readonly revoked?: boolean;
}

export const theStation: Caller = { rank: 'station' };
export const somebody: Caller = { rank: 'anyone' };

const callers = new WeakMap<object, Caller>();

/** Notes who sent a request, by its raw message, which the upgrade to a live connection shares. */
export const setCaller = (request: FastifyRequest, caller: Caller): void => {
  callers.set(request.raw, caller);
};

/** Who sent a request. One that was never judged is nobody's. */
export const callerOf = (request: FastifyRequest): Caller => callers.get(request.raw) ?? somebody;

interface Act {
  readonly device: string;
  under: boolean;
}

const acts = new AsyncLocalStorage<Act>();

/** Does something asked for by a device, so that what is written meanwhile names it in the audit trail. */
export async function actingFor<T>(caller: Caller, act: () => Promise<T>): Promise<T> {
  if (caller.device === undefined) return act();
  const mine: Act = { device: caller.device.id, under: true };
  try {
    return await acts.run(mine, act);
  } finally {
    // What goes on by itself afterwards (a rig that keeps on measuring) is the station's own doing again.
    mine.under = false;
  }
}

/** The device that what is being done right now was asked for by; undefined: the station itself. */
export function actingDevice(): string | undefined {
  const act = acts.getStore();
  return act?.under === true ? act.device : undefined;
}
