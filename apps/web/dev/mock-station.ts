import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Plugin } from 'vite';

const problem = (status: number, code: string, detail: string, next: string) => ({
  status,
  body: { type: 'about:blank', title: detail, status, code, detail, next },
});

/**
 * A stand-in for the station while the interface is developed. It answers from simulated recordings and keeps decisions
 * in memory. Part of the development server only; nothing of it is in a build.
 */
export function mockStation(): Plugin {
  return {
    name: 'mock-station',
    apply: 'serve',
    configureServer(server) {
      let station: Promise<ReturnType<typeof import('./answers.ts')['makeStation']>> | undefined;
      const ready = () => {
        station ??= server
          .ssrLoadModule('/dev/answers.ts')
          .then((module) => (module as typeof import('./answers.ts')).makeStation());
        return station;
      };
      server.middlewares.use(async (request, response, next) => {
        if (!request.url?.startsWith('/api/')) return next();
        try {
          await answer(await ready(), request, response);
        } catch (error) {
          server.config.logger.error(String((error as Error).stack));
          send(response, 500, {
            type: 'about:blank',
            title: 'Failed',
            status: 500,
            code: 'simulated-failure',
            detail: 'The simulated station failed.',
            next: 'Look at its output.',
          });
        }
      });
    },
  };
}

type Station = ReturnType<typeof import('./answers.ts')['makeStation']>;

async function answer(station: Station, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const path = new URL(request.url ?? '', 'http://localhost').pathname;
  const [, , first, , part, id = '', act] = path.split('/');
  if (first === 'station') return send(response, 200, station.info());
  if (part === 'sessions') return found(response, id === '' ? station.sessions() : station.sessionView(id));
  if (part === 'trials' && id === 'broken') {
    const { status, body } = problem(
      503,
      'recording-not-readable',
      'The recording could not be read.',
      'It is still in the backup. Check the disk, then try again.',
    );
    return send(response, status, body);
  }
  if (part === 'trials' && act === 'curve') {
    const bytes = station.curve(id);
    if (!bytes) return found(response, undefined);
    response.writeHead(200, { 'content-type': 'application/vnd.sthene.curve' });
    response.end(bytes);
    return;
  }
  if (part === 'trials' && act === 'uncertainty') return found(response, station.uncertainty(id));
  if (part === 'trials' && act === undefined) return found(response, station.view(id));
  const body = JSON.parse(await text(request));
  if (act === 'decisions') return found(response, station.add(id, body));
  if (act === 'undo' || act === 'redo') return found(response, station.turn(id, act, body.by));
  return found(response, undefined);
}

function found(response: ServerResponse, data: unknown): void {
  if (data !== undefined) {
    send(response, 200, data);
    return;
  }
  const { status, body } = problem(
    404,
    'not-found',
    'There is no such record.',
    'It may have been removed. Go back to the sessions.',
  );
  send(response, status, body);
}

function send(response: ServerResponse, status: number, data: unknown): void {
  response.writeHead(status, { 'content-type': status < 400 ? 'application/json' : 'application/problem+json' });
  response.end(JSON.stringify(data));
}

async function text(request: IncomingMessage): Promise<string> {
  let all = '';
  for await (const chunk of request) all += chunk;
  return all === '' ? '{}' : all;
}
