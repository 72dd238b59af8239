import { livePath, toStation } from '@sthene/contract';
import type { Plugin } from 'vite';
import { type WebSocket, WebSocketServer } from 'ws';
import type { Said, WallSaid } from './live-messages.ts';
import { LiveScript } from './live-script.ts';
import { forWall } from './live-wall.ts';

/**
 * The live connection of the simulated station. `GET /dev/live?effort=submaximal&handsFree=1` begins anew, `?cut=1` breaks every
 * connection for a while, `?ask=1` asks a question. Part of the development server only; nothing of it is in a build.
 */
export function mockLive(): Plugin {
  return {
    name: 'mock-live',
    apply: 'serve',
    configureServer(server) {
      const clients = new Map<WebSocket, { wall: boolean; sequence: number; device: { id: string; name: string } }>();
      let script = new LiveScript({ wallClock: Date.now() });
      let cutUntil = 0;
      const write = (socket: WebSocket, message: Said | WallSaid) => {
        const client = clients.get(socket);
        if (client !== undefined) socket.send(JSON.stringify({ ...message, sequence: ++client.sequence }));
      };
      const greet = (socket: WebSocket) => {
        const client = clients.get(socket);
        if (client === undefined) return;
        const { device, wall } = client;
        write(socket, wall ? script.wall() : script.snapshot({ device: device.id, name: device.name }));
      };
      const tell = (all: readonly Said[]) => {
        for (const message of all)
          for (const [socket, client] of clients) {
            // The script counts its own milliseconds; cues carry the clock that probes are answered with.
            const timed = message.type === 'cue' ? { ...message, at: performance.now() } : message;
            const said = client.wall ? forWall(timed, script) : timed;
            if (said !== undefined) write(socket, said);
          }
      };
      const sockets = new WebSocketServer({ noServer: true });
      const timer = setInterval(() => tell(script.tick(50)), 50);
      server.httpServer?.on('close', () => clearInterval(timer));
      server.httpServer?.on('upgrade', (request, socket, head) => {
        if (request.url !== livePath) return;
        if (Date.now() < cutUntil) socket.destroy();
        else sockets.handleUpgrade(request, socket, head, (opened) => sockets.emit('connection', opened, request));
      });
      sockets.on('connection', (socket) => {
        socket.on('close', () => clients.delete(socket));
        socket.on('message', (data) => {
          const message = toStation.parse(JSON.parse(String(data)));
          if (message.type === 'hello') {
            clients.set(socket, { wall: message.role === 'wall', sequence: 0, device: message.device });
            greet(socket);
          } else if (message.type === 'probe') {
            const t1 = performance.now();
            write(socket, { type: 'probe', id: message.id, t0: message.t0, t1, t2: performance.now() });
          } else if (message.type === 'take-controls')
            tell([script.take(clients.get(socket)?.device ?? { id: '', name: '' })]);
          else if (message.type === 'command') {
            tell(script.obey(message));
            for (const [other, client] of clients) if (client.wall) write(other, script.wall());
          } else if (message.type === 'answer')
            tell([
              { type: 'accepted', id: message.id },
              { type: 'question-over', id: message.question, choice: message.choice },
            ]);
        });
      });
      server.middlewares.use('/dev/live', (request, response) => {
        const query = new URL(request.url ?? '', 'http://localhost').searchParams;
        if (query.has('cut')) {
          cutUntil = Date.now() + 4000;
          for (const socket of clients.keys()) socket.terminate();
        } else if (query.has('ask')) tell([script.ask()]);
        else {
          const effort = query.get('effort') === 'submaximal' ? 'submaximal' : 'maximal';
          script = new LiveScript({
            effort,
            handsFree: query.has('handsFree'),
            auto: query.has('auto'),
            wallClock: Date.now(),
          });
          for (const socket of clients.keys()) greet(socket);
        }
        response.end('done');
      });
    },
  };
}
