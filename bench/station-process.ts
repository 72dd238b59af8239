import { startTalking } from './talking.ts';

/** What a station process has used since its start. */
export interface Usage {
  /** ms of processor time. */
  readonly cpu: number;
  /** Bytes. */
  readonly rss: number;
  readonly heapUsed: number;
  readonly arrayBuffers: number;
  /** Open sockets, files and timers. */
  readonly handles: number;
}

/** The built station in a process of its own. */
export interface StationProcess {
  /** Address without a slash at the end. */
  readonly address: string;
  /** @param of `time`: without the collection that makes memory comparable, and costs time */
  usage(of?: 'all' | 'time'): Promise<Usage>;
  stop(): Promise<void>;
}

/** Starts `work/station.mjs` with a data folder and a built web app; the station ends with its input. */
export async function startStationProcess(
  data: string,
  web: string,
  flags: readonly string[] = [],
): Promise<StationProcess> {
  const talking = await startTalking<{ address: string }>('station', [data, web], flags);
  return {
    address: talking.said.address.replace(/\/$/, ''),
    usage: (of = 'all') => talking.ask<Usage>(of),
    async stop() {
      await talking.stop();
    },
  };
}
