import { isIPv4, isIPv6 } from 'node:net';
import { hostname, networkInterfaces } from 'node:os';

/** Under what this machine can be reached from others. */
export interface OwnNames {
  /** Lower case: `bench.local`, `bench`. */
  readonly names: readonly string[];
  /** IPv4 first. No loopback, no link-local address (those need a zone that no certificate can hold). */
  readonly addresses: readonly string[];
}

/** Asked of the system each time: a cable or a router may have changed it a second ago. */
export function ownNames(): OwnNames {
  const all = Object.values(networkInterfaces()).flatMap((one) => one ?? []);
  const addresses = [...new Set(all.filter(({ internal }) => !internal).map(({ address }) => address))].filter(
    (address) => !/^(fe80|169\.254\.)/i.test(address),
  );
  return { names: namesOf(hostname()), addresses: [...addresses.filter(isIPv4), ...addresses.filter(isIPv6)] };
}

/** `bench.lab.example` answers to itself, to `bench` and, by multicast, to `bench.local`. */
export function namesOf(host: string): string[] {
  const full = host.toLowerCase().replace(/\.$/, '');
  const label = /^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$/;
  const parts = full.split('.');
  if (!parts.every((part) => label.test(part)) || full === 'localhost') return [];
  const [first = full] = parts;
  return [...new Set([`${first}.local`, first, full])];
}

/** As it stands in an address: IPv6 in brackets. */
export const inAddress = (name: string): string => (isIPv6(name) ? `[${name}]` : name);
