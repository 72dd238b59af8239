import { randomUUID } from 'node:crypto';
import type { Actor, Store } from '@sthene/store';
import { stationActor } from './open-lab.ts';

const key = 'operators';

/** Accounts by id with the name each signs with. The audit trail holds the id alone, so that a name can be erased. */
export function operators(store: Store): {
  actor(name: string): Promise<Actor>;
  nameOf(account: string): Promise<string>;
} {
  const read = async () =>
    ((await store.settings.get<Record<string, string>>(key))?.value ?? {}) as Record<string, string>;
  return {
    async actor(name) {
      const known = await read();
      const signed = name.trim().replace(/\s+/g, ' ');
      const found = Object.entries(known).find(([, one]) => one === signed)?.[0];
      if (found !== undefined) return { by: found, station: 'station' };
      const id = `operator-${randomUUID()}`;
      await store.settings.set(key, { ...known, [id]: signed }, stationActor);
      return { by: id, station: 'station' };
    },
    async nameOf(account) {
      return account === stationActor.by ? 'the station' : ((await read())[account] ?? account);
    },
  };
}
