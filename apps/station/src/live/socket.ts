import type { Socket as Connection } from 'node:net';
import websocket from '@fastify/websocket';
import { livePath, toStation } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import type { WebSocket } from 'ws';
import { actingFor, type Caller, callerOf } from '../access/caller.ts';
import { joiningAs } from '../access/join.ts';
import { includes, messageRights } from '../access/rights.ts';
import type { Station } from '../work/station.ts';
import { notAnOperator, receive } from './commands.ts';
import type { Client, Message } from './hub/client.ts';
import { together } from './hub/together.ts';
import type { LiveLab } from './live-lab.ts';

/** A message of a client is small; anything longer is refused by the socket itself. */
const longestMessage = 64 * 1024;
const helloWithin = 5_000;
const pingEvery = 10_000;
/** Messages a client may send in a second before it is let go. */
const busiest = 200;

/** The live connection. Host and Origin were checked by the same guard as for HTTP before the upgrade. */
export async function registerSocket(server: FastifyInstance, station: Station): Promise<void> {
  await server.register(websocket, { options: { maxPayload: longestMessage, perMessageDeflate: false } });
  // A refused upgrade is answered as any request; its socket would else stay open and keep the station from closing.
  server.addHook('onResponse', async (request) => {
    if (request.raw.headers.upgrade !== undefined) request.raw.socket.destroySoon();
  });
  server.get(livePath, { websocket: true, schema: { hide: true } }, (socket, request) => {
    void serve(station, socket as unknown as WebSocket, request.raw.socket, callerOf(request));
  });
}

async function serve(station: Station, socket: WebSocket, connection: Connection, caller: Caller): Promise<void> {
  let client: Client | undefined;
  let live: LiveLab | undefined;
  let alive = true;
  let received = 0;
  let joining: Promise<void> | undefined;
  let ended = false;
  const paired = caller.device?.id;
  const forget =
    paired === undefined
      ? undefined
      : station.devices.connections.add(paired, () => {
          ended = true;
          if (client !== undefined) live?.dismiss(client);
          socket.close(4403, 'this device was taken off');
          setTimeout(() => socket.terminate(), 500).unref();
        });
  const late = setTimeout(() => socket.close(4000, 'no hello'), helloWithin);
  const ping = setInterval(() => {
    if (!alive) socket.terminate();
    alive = false;
    received = 0;
    socket.ping();
  }, pingEvery);
  socket.on('pong', () => {
    alive = true;
  });
  socket.on('error', () => socket.terminate());
  socket.on('close', () => {
    clearTimeout(late);
    clearInterval(ping);
    forget?.();
    if (client !== undefined) live?.leave(client);
  });
  socket.on('message', (data) => {
    if (ended) return undefined;
    alive = true;
    received++;
    if (received > (busiest * pingEvery) / 1000) return socket.close(1008, 'too many messages');
    const message = parsed(String(data));
    if (message === undefined) {
      if (client === undefined) return socket.close(4001, 'not understood');
      return live?.hub.answer(client, {
        type: 'refused',
        code: 'not-understood',
        words: 'The message does not fit the interface.',
        next: 'See docs/reference/live-interface.md.',
      } as Message);
    }
    if (client !== undefined && live !== undefined) {
      const [at, who] = [live, client];
      if (!includes(who.device.role, messageRights[message.type])) {
        const id = 'id' in message ? { id: message.id } : {};
        return at.hub.answer(who, { type: 'refused', ...id, ...notAnOperator } as Message);
      }
      void actingFor(caller, () => receive(at, who, message));
      return undefined;
    }
    if (joining !== undefined) {
      // What a client sends right behind its hello waits until the lab is open.
      void joining.then(() => {
        if (client !== undefined && live !== undefined) void receive(live, client, message);
      });
      return undefined;
    }
    if (message.type !== 'hello') return socket.close(4001, 'say hello first');
    joining = (async () => {
      clearTimeout(late);
      const device = joiningAs(message, caller);
      // Never meant for this, or taken off between the upgrade and now.
      if (device === undefined || !(await station.devices.holds(caller)))
        return socket.close(4403, 'not for this device');
      const found = await station.live(message.lab);
      if (ended || socket.readyState !== socket.OPEN) return;
      live = found;
      client = found.join(device, together(socket, connection));
    })().catch(() => socket.close(4004, 'there is no such lab'));
    return undefined;
  });
}

function parsed(text: string) {
  try {
    const result = toStation.safeParse(JSON.parse(text));
    return result.success ? result.data : undefined;
  } catch {
    return undefined;
  }
}
