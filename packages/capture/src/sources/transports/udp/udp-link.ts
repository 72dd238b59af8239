import { createSocket, type Socket } from 'node:dgram';
import type { Transport } from '../../description.ts';
import { type Link, type LinkEvents, retryMilliseconds } from '../../link.ts';
import { troubleOf } from '../../link-trouble.ts';

type UdpTransport = Extract<Transport, { kind: 'udp' }>;

export interface UdpLink extends Link {
  readonly port: number | undefined;
}

/** Datagrams from one sender, the first that is heard; others are refused. Each datagram holds whole lines or frames. */
export function udpLink(transport: UdpTransport): UdpLink {
  let socket: Socket | undefined;
  let stopped = false;
  let known: string | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const bind = (events: LinkEvents): Promise<void> =>
    new Promise((tried) => {
      const open = createSocket({ type: transport.host.includes(':') ? 'udp6' : 'udp4', recvBufferSize: 1 << 20 });
      socket = open;
      open.on('message', (bytes, from) => {
        if (known === undefined) {
          known = from.address;
          events.opened(known);
        }
        if (from.address !== known) {
          events.wrongDevice(`${from.address} sends to the port of this source; its device is ${known}.`);
          return;
        }
        events.bytes(bytes);
        events.pieceEnd?.();
      });
      open.on('error', (error) => {
        tried();
        if (stopped) return;
        events.closed(`Port ${transport.port} cannot be listened on: ${error.message}.`, troubleOf(error));
        open.close();
        timer = setTimeout(() => void bind(events), retryMilliseconds);
      });
      open.bind(transport.port, transport.host, () => {
        if (known === undefined) events.closed('Waiting for the first datagram.');
        else events.opened(known);
        tried();
      });
    });
  return {
    get port() {
      try {
        return socket?.address().port;
      } catch {
        return undefined;
      }
    },
    start: bind,
    async stop() {
      stopped = true;
      clearTimeout(timer);
      await new Promise<void>((done) => {
        if (socket === undefined) return done();
        try {
          socket.close(() => done());
        } catch {
          done();
        }
      });
    },
  };
}
