import type { Hello } from '@sthene/contract';
import type { Device } from '../live/hub/client.ts';
import type { Caller } from './caller.ts';
import { includes } from './rights.ts';

/**
 * As what somebody joins the live connection. The station itself says who it is; a paired device is who it was paired as,
 * whatever it says, and gets at most its own role.
 *
 * @returns undefined where it may not join at all
 */
export function joiningAs(hello: Hello, { rank, device }: Caller): Device | undefined {
  const by = hello.by ?? hello.device.name;
  if (rank === 'station') return { ...hello.device, role: hello.role, by };
  if (device === undefined || device.lab !== hello.lab) return undefined;
  // A wall shown the floor would not understand it; it is told no instead.
  if (device.role === 'wall' && hello.role !== 'wall') return undefined;
  const role = includes(device.role, hello.role) ? hello.role : device.role;
  // A tablet may show the wall in a second window; the two are told apart.
  const id = role === 'wall' && device.role !== 'wall' ? `${device.id}-wall` : device.id;
  return { id, name: device.name, role, by: hello.by ?? device.name };
}
