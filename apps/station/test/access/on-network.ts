import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { accessRoutes, type Call, call, type LiveRole, type Route, routes } from '@sthene/contract';
import { startStation } from '../../src/index.ts';
import type { OwnNames } from '../../src/network/own-names.ts';

/**
 * The door to the network is tried on the loopback address, which every machine has: what came in by it counts as the network
 * wherever it came from. The station is told that this is its address in the room.
 */
export const roomAddress = '127.0.0.1';
export const by = 'Rowan';
export const inLab = { lab: 'lab' as const };

export interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
  readonly json: { readonly code?: string } & Record<string, unknown>;
}

export interface Asking {
  readonly method?: string;
  readonly cookie?: string | undefined;
  readonly headers?: Record<string, string>;
  readonly body?: unknown;
}

/** A station with its door open, and both ways to ask it. */
export async function stationOnNetwork(
  names: () => OwnNames = () => ({ names: ['bench.local'], addresses: [roomAddress] }),
) {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-network-'));
  const options = { port: 0, networkPort: 0, data: folder, webFolder: join(folder, 'no-web'), names };
  const station = await startStation({ ...options, network: true });
  const { port = 0, problem } = await station.network();
  if (problem !== undefined) throw new Error(problem.detail);
  const ca = () => readFileSync(join(folder, 'network', 'authority.pem'), 'utf8');
  const host = `${roomAddress}:${port}`;

  /** As the station's own screen. */
  const ask = <P, Q, B, R>(route: Route<P, Q, B, R>, input?: Call<P, Partial<Q>, Partial<B>>): Promise<R> =>
    call(
      (url, init) => fetch(url, init as RequestInit),
      station.address.replace(/\/$/, ''),
      route as never,
      input as never,
    );

  /** As another machine, which trusts the authority and nothing else. */
  const over = (path: string, { method = 'GET', cookie, headers = {}, body }: Asking = {}): Promise<Answer> =>
    new Promise((done, failed) => {
      const sent = request(
        {
          host: roomAddress,
          port,
          path,
          method,
          ca: ca(),
          servername: 'bench.local',
          headers: {
            host,
            ...(cookie === undefined ? {} : { cookie }),
            ...(body === undefined ? {} : { 'content-type': 'application/json' }),
            ...headers,
          },
        },
        (answer) => {
          const pieces: Buffer[] = [];
          answer.on('data', (piece: Buffer) => pieces.push(piece));
          answer.on('end', () => {
            const text = Buffer.concat(pieces).toString();
            const json = /json/.test(answer.headers['content-type'] ?? '') ? JSON.parse(text) : {};
            done({ status: answer.statusCode ?? 0, headers: answer.headers, text, json });
          });
        },
      );
      sent.on('error', failed);
      sent.end(body === undefined ? undefined : JSON.stringify(body));
    });

  const code = (role: LiveRole, name = `A ${role}`, lab: 'lab' | 'example' = 'lab') =>
    ask(accessRoutes.makeCode, { params: { lab }, body: { name, role, by } });

  /** Pairs a device. @returns its id and its cookie */
  const pair = async (role: LiveRole, name?: string) => {
    const { code: typed } = await code(role, name);
    const answer = await over('/api/pair', { method: 'POST', body: { code: typed } });
    if (answer.status !== 200) throw new Error(answer.text);
    const [set = ''] = [answer.headers['set-cookie'] ?? []].flat();
    return { id: (answer.json.device as { id: string }).id, cookie: set.split(';')[0] ?? '', set };
  };

  await ask(routes.createLab, { params: inLab, body: {} });
  return {
    ...station,
    folder,
    port,
    host,
    ca,
    ask,
    over,
    code,
    pair,
    async end() {
      await station.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type OnNetwork = Awaited<ReturnType<typeof stationOnNetwork>>;
