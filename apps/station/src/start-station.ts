import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { application, version } from '@sthene/contract';
import pino from 'pino';
import { dataFolder } from './data-folder.ts';
import { type HeadlessOptions, runHeadless } from './live/headless.ts';
import type { LivePorts } from './live/ports.ts';
import { createServer } from './server/create-server.ts';
import { Station } from './work/station.ts';

export interface StationOptions {
  /** Port on this machine; the next free one is taken where it is in use. 0: any. */
  readonly port?: number;
  readonly data?: string;
  readonly database?: string;
  readonly webFolder?: string;
  /** Runs a day without anybody at a screen. */
  readonly headless?: HeadlessOptions;
  /** Clocks, devices and journals; tests bring their own. */
  readonly ports?: LivePorts;
}

export interface RunningStation {
  readonly address: string;
  readonly dataFolder: string;
  /** Resolves after one of the signals came and everything was closed. */
  stopped(signals: readonly NodeJS.Signals[]): Promise<void>;
  close(): Promise<void>;
}

const firstPort = 7310;
const portsTried = 20;

/** Starts the station on this machine. Facts lie in the data folder; nothing is sent anywhere. */
export async function startStation(options: StationOptions = {}): Promise<RunningStation> {
  const data = dataFolder(options.data);
  mkdirSync(data, { recursive: true });
  const database = options.database ?? process.env.STHENE_DATABASE;
  const logger = pino(
    { level: process.env.STHENE_LOG ?? 'warn' },
    pino.destination({ dest: join(data, 'station.log'), append: true, sync: false }),
  );
  const station = new Station({
    data,
    version,
    application,
    ...(database === undefined ? {} : { database }),
    ...(options.ports === undefined ? {} : { ports: options.ports }),
  });
  let port = 0;
  const server = await createServer({
    station,
    logger,
    webFolder: options.webFolder ?? builtWebApp(),
    port: () => port,
  });
  port = await listen(options.port, async (wanted) => {
    await server.listen({ host: '127.0.0.1', port: wanted });
    const bound = server.server.address();
    return typeof bound === 'object' && bound !== null ? bound.port : wanted;
  });
  await station
    .resume()
    .catch((error: unknown) => logger.error({ err: error }, 'could not go on with what was under way'));
  const close = async () => {
    // Rigs first: what is under way is journalled to its end, and open connections are told.
    await station.close();
    await server.close();
  };
  if (options.headless !== undefined) {
    try {
      await runHeadless(station, options.headless);
    } catch (error) {
      await close();
      throw error;
    }
  }
  return {
    address: `http://127.0.0.1:${port}/`,
    dataFolder: data,
    close,
    stopped: (signals) =>
      new Promise((done, failed) => {
        for (const signal of signals) process.once(signal, () => void close().then(done, failed));
      }),
  };
}

/** The wanted port, or the first free one after the usual one. */
async function listen(wanted: number | undefined, at: (port: number) => Promise<number>): Promise<number> {
  const from = wanted ?? firstPort;
  for (let port = from; ; port++) {
    try {
      return await at(port);
    } catch (error) {
      const inUse = (error as NodeJS.ErrnoException).code === 'EADDRINUSE';
      if (!inUse || port >= from + portsTried) throw error;
    }
  }
}

/** The web app as the build leaves it beside this package. */
const builtWebApp = () => fileURLToPath(new URL('../../web/dist', import.meta.url));
