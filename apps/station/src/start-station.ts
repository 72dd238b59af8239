import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { application, type NetworkView, version } from '@sthene/contract';
import pino from 'pino';
import { dataFolder } from './data-folder.ts';
import { type HeadlessOptions, runHeadless } from './live/headless.ts';
import type { LivePorts } from './live/ports.ts';
import { listenFrom, refusePlainNetwork } from './network/listen.ts';
import { Network } from './network/network.ts';
import { inAddress, type OwnNames } from './network/own-names.ts';
import { createServer } from './server/create-server.ts';
import { machineHosts } from './server/guard.ts';
import { Station } from './work/station.ts';

export interface StationOptions {
  /** Port on this machine; the next free one is taken where it is in use. 0: any. */
  readonly port?: number;
  readonly data?: string;
  readonly database?: string;
  readonly webFolder?: string;
  /** Address to listen on without TLS; anything but this machine's own is refused. */
  readonly host?: string;
  /** Opens or closes the station to paired devices on the network; absent: as it was left. */
  readonly network?: boolean;
  /** Port of the network; the next free one is taken where it is in use. */
  readonly networkPort?: number;
  /** Under which names the machine is reached from others; tests bring their own. */
  readonly names?: () => OwnNames;
  /** Runs a day without anybody at a screen. */
  readonly headless?: HeadlessOptions;
  /** Clocks, devices and journals; tests bring their own. */
  readonly ports?: LivePorts;
}

export interface RunningStation {
  readonly address: string;
  readonly dataFolder: string;
  /** How the station stands on the network. */
  network(): Promise<NetworkView>;
  /** Resolves after one of the signals came and everything was closed. */
  stopped(signals: readonly NodeJS.Signals[]): Promise<void>;
  close(): Promise<void>;
}

const firstPort = 7310;

/** How long requests that are being answered keep the station from ending, ms. */
const mostPatience = 5_000;

/** Starts the station on this machine. Facts lie in the data folder; nothing is sent anywhere. */
export async function startStation(options: StationOptions = {}): Promise<RunningStation> {
  const host = options.host ?? '127.0.0.1';
  refusePlainNetwork(host);
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
  const shared = { station, logger, webFolder: options.webFolder ?? builtWebApp() };
  const network: Network = new Network({
    data,
    logger,
    build: (tls) => createServer({ ...shared, network, tls, hosts: () => network.hosts() }),
    ...(options.networkPort === undefined ? {} : { port: options.networkPort }),
    ...(options.names === undefined ? {} : { names: options.names }),
  });
  let port = 0;
  const server = await createServer({ ...shared, network, hosts: () => machineHosts(port) });
  port = await listenFrom(server, host, options.port ?? firstPort);
  await station
    .resume()
    .catch((error: unknown) => logger.error({ err: error }, 'could not go on with what was under way'));
  await network.start(options.network);
  const close = async () => {
    // Rigs first: what is under way is journalled to its end, and open connections are told.
    await station.close();
    await network.close();
    // What is being answered is answered; a browser that only holds a connection ready does not keep the station from ending.
    const patience = setTimeout(() => server.server.closeAllConnections(), mostPatience);
    await server.close();
    clearTimeout(patience);
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
    address: `http://${inAddress(host)}:${port}/`,
    dataFolder: data,
    network: () => network.view(),
    close,
    stopped: (signals) =>
      new Promise((done, failed) => {
        for (const signal of signals) process.once(signal, () => void close().then(done, failed));
      }),
  };
}

/** The web app as the build leaves it beside this package. */
const builtWebApp = () => fileURLToPath(new URL('../../web/dist', import.meta.url));
