import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Call, type Curve, call, callForBytes, decodeCurve, type Route, routes } from '@sthene/contract';
import { type HeadlessOptions, type RunningStation, startStation } from '../src/index.ts';
import type { LivePorts } from '../src/live/ports.ts';

/** A station on any free port with a data folder of its own. */
export interface StationUnderTest extends RunningStation {
  readonly folder: string;
  /** Fields with a default may be left out of a body, as any client may. */
  ask<P, Q, B, R>(route: Route<P, Q, B, R>, input?: Call<P, Partial<Q>, Partial<B>>): Promise<R>;
  curve(trial: string): Promise<Curve>;
  end(): Promise<void>;
}

export async function stationUnderTest(
  folder = mkdtempSync(join(tmpdir(), 'sthene-station-')),
  headless?: HeadlessOptions,
  ports?: LivePorts,
): Promise<StationUnderTest> {
  const station = await startStation({
    port: 0,
    data: folder,
    webFolder: join(folder, 'no-web'),
    ...(headless ? { headless } : {}),
    ...(ports ? { ports } : {}),
  });
  const base = station.address.replace(/\/$/, '');
  return {
    ...station,
    folder,
    ask: (route, input) => call((url, init) => fetch(url, init as RequestInit), base, route as never, input as never),
    curve: async (trial) =>
      decodeCurve(
        await callForBytes((url, init) => fetch(url, init as RequestInit), base, routes.curve, {
          params: { lab: 'lab', id: trial },
        }),
      ),
    async end() {
      await station.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
