import { createSocket, type Socket } from 'node:dgram';
import { createServer, type Server } from 'node:net';
import type { StreamNetwork } from '@sthene/capture';

/** Ports to try in their order: those of the protocol, then any. */
const portsOf = ({ servicePort, servicePorts }: StreamNetwork): number[] => [
  ...Array.from({ length: servicePorts }, (_, i) => servicePort + i),
  0,
];

const inUse = (error: unknown): boolean => (error as NodeJS.ErrnoException).code === 'EADDRINUSE';

/** The first port that is free, in the order of the protocol. */
async function firstFree<T>(network: StreamNetwork, open: (port: number) => Promise<T>): Promise<T> {
  for (const port of portsOf(network)) {
    try {
      return await open(port);
    } catch (error) {
      if (port === 0 || !inUse(error)) throw error;
    }
  }
  throw new Error('no port is free');
}

/** A server for samples on a port of the protocol. */
export const listenForReceivers = (network: StreamNetwork, host: string): Promise<Server> =>
  firstFree(
    network,
    (port) =>
      new Promise((done, failed) => {
        const server = createServer();
        server.once('error', failed);
        server.listen(port, host, () => {
          server.off('error', failed);
          server.on('error', () => {});
          done(server);
        });
      }),
  );

/** A socket for queries and time probes on a port of the protocol. */
export const bindService = (network: StreamNetwork, host: string): Promise<Socket> =>
  firstFree(network, (port) => bound(createSocket('udp4'), port, host));

/** The socket on which everybody hears queries; other programs of the machine may hear there as well. */
export async function bindQueries(network: StreamNetwork, host: string): Promise<Socket> {
  const socket = await bound(createSocket({ type: 'udp4', reuseAddr: true }), network.queryPort, host);
  if (host !== '0.0.0.0') return socket;
  for (const group of network.groups) {
    try {
      socket.addMembership(group);
    } catch {
      // A broadcast address, or a network without this group: the other ways are left.
    }
  }
  return socket;
}

function bound(socket: Socket, port: number, host: string): Promise<Socket> {
  return new Promise((done, failed) => {
    const fail = (error: Error) => {
      socket.close();
      failed(error);
    };
    socket.once('error', fail);
    socket.bind(port, host, () => {
      socket.off('error', fail);
      socket.on('error', () => {});
      done(socket);
    });
  });
}
