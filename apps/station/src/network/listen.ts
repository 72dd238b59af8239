import { BlockList } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { ProblemError } from '../server/problem-error.ts';

const firstNetworkPort = 7343;
const portsTried = 20;

/** Listens on every address of the machine, IPv6 too where there is one. @returns the port */
export async function listenOnNetwork(server: FastifyInstance, wanted: number | undefined): Promise<number> {
  for (const host of ['::', '0.0.0.0'])
    try {
      return await listenFrom(server, host, wanted ?? firstNetworkPort);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (host !== '::' || (code !== 'EAFNOSUPPORT' && code !== 'EADDRNOTAVAIL')) throw error;
    }
  return 0;
}

/** The wanted port, or the first free one after it. */
export async function listenFrom(server: FastifyInstance, host: string, from: number): Promise<number> {
  for (let port = from; ; port++) {
    try {
      await server.listen({ host, port });
      const bound = server.server.address();
      return typeof bound === 'object' && bound !== null ? bound.port : port;
    } catch (error) {
      const inUse = (error as NodeJS.ErrnoException).code === 'EADDRINUSE';
      if (!inUse || port >= from + portsTried) throw error;
    }
  }
}

const loopback = new BlockList();
loopback.addSubnet('127.0.0.0', 8, 'ipv4');
loopback.addAddress('::1', 'ipv6');
loopback.addSubnet('::ffff:127.0.0.0', 104, 'ipv6');

export const isLoopback = (address: string): boolean =>
  loopback.check(address, address.includes(':') ? 'ipv6' : 'ipv4');

/** Without TLS the station only ever listens to this machine. */
export function refusePlainNetwork(host: string): void {
  if (isLoopback(host)) return;
  throw new ProblemError(
    400,
    'plain-http-refused',
    `The station does not listen on ${host} without encryption.`,
    'Start it with --network: other devices then reach it over TLS, once they are paired.',
  );
}
