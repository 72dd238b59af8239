import { randomInt } from 'node:crypto';
import { createSocket } from 'node:dgram';
import { queryHops } from '../../../streaming/protocol.ts';
import { readAnswer, writeQuery } from '../../../streaming/query.ts';
import type { StreamInfo } from '../../../streaming/stream-info.ts';
import { queryTargets, type StreamNetwork, usualStreamNetwork } from './network.ts';

/** A stream that answered, and the address it answered from. */
export interface FoundStream {
  readonly info: StreamInfo;
  readonly address: string;
}

export interface FindStreams {
  /** One machine to ask; absent: the own network and this machine. */
  readonly host?: string | undefined;
  /** Its port for queries, where it is not the usual one. */
  readonly port?: number | undefined;
  readonly network?: StreamNetwork | undefined;
  /** How long answers are awaited, s. */
  readonly seconds: number;
  /** Ends before that. */
  readonly enough?: (found: readonly FoundStream[]) => boolean;
}

export interface FoundStreams {
  readonly streams: readonly FoundStream[];
  /** Why nobody could be asked at all. */
  readonly failed?: Error;
}

/** A query may get lost; it is sent this often, ms. */
const askEvery = 250;
const mostFound = 256;

/**
 * Asks who offers streams and gathers the answers, one for each stream (by its uid). Answers to other questions, and what cannot be read, are
 * passed over. Only IPv4. Never throws.
 */
export function findStreams(options: FindStreams): Promise<FoundStreams> {
  const { host, port, network = usualStreamNetwork, seconds, enough = () => false } = options;
  const targets = queryTargets(network, { host, port });
  const found = new Map<string, FoundStream>();
  const id = String(randomInt(1, 2 ** 47));
  return new Promise((done) => {
    const socket = createSocket({ type: 'udp4', recvBufferSize: 1 << 20 });
    let timer: ReturnType<typeof setInterval> | undefined;
    let end: ReturnType<typeof setTimeout> | undefined;
    let failed: Error | undefined;
    let sent = 0;
    let over = false;
    const finish = (): void => {
      if (over) return;
      over = true;
      clearInterval(timer);
      clearTimeout(end);
      try {
        socket.close();
      } catch {
        // It was never open.
      }
      const streams = [...found.values()];
      done(sent === 0 && failed !== undefined ? { streams, failed } : { streams });
    };
    const ask = (): void => {
      const query = writeQuery({ filter: '', port: socket.address().port, id });
      for (const target of targets)
        socket.send(query, target.port, target.address, (error) => {
          if (error === null) sent++;
          else failed ??= error;
        });
    };
    socket.on('error', (error) => {
      failed ??= error;
      finish();
    });
    socket.on('message', (bytes, from) => {
      const answer = readAnswer(bytes);
      if (!answer.ok || answer.value.id !== id || found.size >= mostFound || over) return;
      const { info } = answer.value;
      // The same stream answers in several ways; the first is the nearest.
      if (!found.has(info.uid)) found.set(info.uid, { info, address: from.address });
      if (enough([...found.values()])) finish();
    });
    socket.bind(0, '0.0.0.0', () => {
      try {
        socket.setBroadcast(true);
        socket.setMulticastTTL(queryHops);
      } catch {
        // Then only single addresses are reached.
      }
      ask();
      timer = setInterval(ask, askEvery);
      end = setTimeout(finish, 1000 * seconds);
    });
  });
}
