import type { Writable } from 'node:stream';
import type { Socket } from './client.ts';

/** The part of a WebSocket that sends. */
export interface PlainSocket extends Omit<Socket, 'send'> {
  send(data: string, sent: (error?: Error) => void): void;
}

/**
 * A socket whose messages of one turn of the event loop leave in one write, which costs most of what a small message costs. What is
 * to go soon does not wait: much may be done before the turn ends.
 */
export function together(socket: PlainSocket, connection: Pick<Writable, 'cork' | 'uncork'>): Socket {
  let corked = false;
  const release = (): void => {
    if (!corked) return;
    corked = false;
    connection.uncork();
  };
  return {
    get bufferedAmount() {
      return socket.bufferedAmount;
    },
    send(data, soon, sent) {
      if (!soon && !corked) {
        corked = true;
        connection.cork();
        process.nextTick(release);
      }
      socket.send(data, sent);
      if (soon) release();
    },
    close: (code, reason) => socket.close(code, reason),
    terminate: () => socket.terminate(),
  };
}
