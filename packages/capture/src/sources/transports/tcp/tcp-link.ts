import { connect, createServer, type Server, type Socket } from 'node:net';
import type { Transport } from '../../description.ts';
import { type Link, type LinkEvents, retryMilliseconds } from '../../link.ts';
import { type LinkTroubleCode, troubleOf } from '../../link-trouble.ts';
import { startBytesOf } from '../start-bytes.ts';

type TcpTransport = Extract<Transport, { kind: 'tcp' }>;

export interface TcpLink extends Link {
  /** Port the link listens on, once it does. */
  readonly port: number | undefined;
}

const deadAfter = 5_000;
const readBytes = 64 * 1024;

/**
 * A TCP stream, called or awaited. A listening source serves one device at a time, and after a lost link only the address it
 * knew; everybody else is turned away.
 */
export function tcpLink(transport: TcpTransport): TcpLink {
  return transport.mode === 'connect' ? callingLink(transport) : listeningLink(transport);
}

type Closed = (reason: string, trouble?: LinkTroubleCode) => void;

function carry(socket: Socket, transport: TcpTransport, events: LinkEvents, closed: Closed): void {
  let reason = 'The device closed the connection.';
  socket.setNoDelay(true);
  socket.setKeepAlive(true, deadAfter);
  socket.on('error', (error) => {
    reason = `The connection failed: ${error.message}.`;
  });
  socket.on('close', () => closed(reason, 'source-link-failed'));
  const start = startBytesOf(transport.startBytes);
  if (start !== undefined) socket.write(start);
  events.opened(socket.remoteAddress);
}

function callingLink(transport: TcpTransport): TcpLink {
  let stopped = false;
  let socket: Socket | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const attempt = (events: LinkEvents): Promise<void> =>
    new Promise((tried) => {
      const { host, port } = transport;
      const again: Closed = (reason, trouble) => {
        tried();
        if (stopped) return;
        events.closed(reason, trouble);
        timer = setTimeout(() => void attempt(events), retryMilliseconds);
      };
      // Read into one buffer over and over: frames come hundreds of times a second, and a buffer of its own for each costs more
      // than to read it.
      const onread = {
        buffer: new Uint8Array(readBytes),
        callback(count: number, buffer: Uint8Array) {
          events.bytes(buffer.subarray(0, count));
          return true;
        },
      };
      const calling = connect({ host, port, onread });
      socket = calling;
      calling.setTimeout(deadAfter, () => {
        if (calling.connecting) calling.destroy(new Error('no answer'));
      });
      const refused = (error: Error) => again(`${host}:${port} does not answer: ${error.message}.`, troubleOf(error));
      calling.once('error', refused);
      calling.once('connect', () => {
        calling.off('error', refused);
        calling.setTimeout(0);
        carry(calling, transport, events, again);
        tried();
      });
    });
  return {
    port: undefined,
    start: attempt,
    async stop() {
      stopped = true;
      clearTimeout(timer);
      socket?.destroy();
    },
  };
}

function listeningLink(transport: TcpTransport): TcpLink {
  let server: Server | undefined;
  let current: Socket | undefined;
  let known: string | undefined;
  let stopped = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const listen = (events: LinkEvents): Promise<void> =>
    new Promise((tried) => {
      const listening = createServer((socket) => {
        const from = socket.remoteAddress ?? 'an unknown address';
        if (current !== undefined || (known !== undefined && known !== from)) {
          socket.on('error', () => {});
          socket.destroy();
          events.wrongDevice(`${from} tried to deliver while ${known ?? from} is the device of this source.`);
          return;
        }
        current = socket;
        known = from;
        socket.on('data', (bytes) => events.bytes(bytes));
        carry(socket, transport, events, (reason, trouble) => {
          current = undefined;
          if (!stopped) events.closed(reason, trouble);
        });
      });
      server = listening;
      listening.on('error', (error) => {
        tried();
        if (stopped) return;
        events.closed(`Port ${transport.port} cannot be listened on: ${error.message}.`, troubleOf(error));
        timer = setTimeout(() => void listen(events), retryMilliseconds);
      });
      listening.listen(transport.port, transport.host, () => {
        events.closed('Waiting for the device to call.');
        tried();
      });
    });
  return {
    get port() {
      const address = server?.address();
      return typeof address === 'object' ? address?.port : undefined;
    },
    start: listen,
    async stop() {
      stopped = true;
      clearTimeout(timer);
      current?.destroy();
      const open = server;
      if (open?.listening) await new Promise<void>((done) => open.close(() => done()));
    },
  };
}
