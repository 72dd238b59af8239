import { readPreference, writePreference } from '../data/preferences.ts';

/** Who this device is to the station. The id is random, says nothing of a person, and stays after a reload. */
export function deviceIdentity(role: 'operator' | 'wall'): { readonly id: string; readonly name: string } {
  let id = readPreference('device');
  if (id === undefined || !/^[A-Za-z0-9-]{8,40}$/.test(id)) {
    id = randomId();
    writePreference('device', id);
  }
  const short = id.slice(0, 4);
  // Floor and wall may be two windows of one browser; the station tells them apart.
  return role === 'wall' ? { id: `${id}-wall`, name: `Wall ${short}` } : { id, name: `Floor ${short}` };
}

/** An id that no other message of this device has. */
export function randomId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
