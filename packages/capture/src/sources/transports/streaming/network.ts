import {
  broadcastAddress,
  ownAddress,
  queryGroups,
  queryPort,
  servicePort,
  servicePorts,
} from '../../../streaming/protocol.ts';

/** Where streams are sought and offered; tests bring ports of their own. */
export interface StreamNetwork {
  /** UDP port on which senders hear queries. */
  readonly queryPort: number;
  /** First of the ports for data and time probes, and how many there are. */
  readonly servicePort: number;
  readonly servicePorts: number;
  /** Addresses beside this machine that are asked where no host is named. */
  readonly groups: readonly string[];
}

/** As the protocol has it. */
export const usualStreamNetwork: StreamNetwork = {
  queryPort,
  servicePort,
  servicePorts,
  groups: [...queryGroups, broadcastAddress],
};

/** Everywhere a query goes: the host that is named, else the own network and this machine. */
export function queryTargets(
  network: StreamNetwork,
  { host, port }: { readonly host?: string | undefined; readonly port?: number | undefined },
): { readonly address: string; readonly port: number }[] {
  const services = Array.from({ length: network.servicePorts }, (_, i) => network.servicePort + i);
  const one = host ?? ownAddress;
  if (host !== undefined && port !== undefined) return [{ address: host, port }];
  // Several programs of one machine may hear on the port for queries, and a datagram to one address reaches one of them: so all ports
  // on which they answer are asked as well.
  const named = [network.queryPort, ...services].map((at) => ({ address: one, port: at }));
  return host === undefined
    ? [...network.groups.map((address) => ({ address, port: network.queryPort })), ...named]
    : named;
}
