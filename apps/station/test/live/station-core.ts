import { type ToOperator, toOperator } from '@sthene/contract';
import { type HeadlessOptions, runHeadless } from '../../src/live/headless.ts';
import type { Client, Socket } from '../../src/live/hub/client.ts';
import type { LiveLab } from '../../src/live/live-lab.ts';
import type { LivePorts } from '../../src/live/ports.ts';
import { stationPorts } from '../../src/live/station-ports.ts';
import { Station } from '../../src/work/station.ts';

/** A station without its server: journal, engine, store and everything live, for what needs neither HTTP nor a network. */
export interface StationCore {
  readonly live: LiveLab;
  readonly messages: ToOperator[];
  readonly client: Client;
  until(test: () => boolean, seconds?: number): Promise<void>;
  of<T extends ToOperator['type']>(type: T): Extract<ToOperator, { type: T }>[];
  close(): Promise<void>;
}

export async function stationCore(
  data: string,
  headless: HeadlessOptions,
  ports: Partial<LivePorts> = {},
  before: (live: LiveLab) => void = () => {},
  /** Absent: messages are validated and kept. */
  told?: (message: ToOperator) => void,
): Promise<StationCore> {
  const station = new Station({
    data,
    version: '0.0.0',
    application: 'sthene test',
    ports: { ...stationPorts, ...ports },
  });
  await station.createLab('lab', undefined);
  const live = await station.live('lab');
  const messages: ToOperator[] = [];
  const socket: Socket = {
    bufferedAmount: 0,
    send(data, _soon, sent) {
      if (told === undefined) messages.push(toOperator.parse(JSON.parse(data)));
      else told(JSON.parse(data) as ToOperator);
      queueMicrotask(sent);
    },
    close() {},
    terminate() {},
  };
  const client = live.join({ id: 'phone-1', name: 'phone', role: 'viewer', by: 'Rowan' }, socket);
  await runHeadless(station, headless);
  before(live);
  return {
    live,
    messages,
    client,
    of: (type) => messages.filter((one): one is never => one.type === type),
    async until(test, seconds = 30) {
      const end = Date.now() + 1000 * seconds;
      while (!test()) {
        if (Date.now() > end) throw new Error(`did not come within ${seconds} s`);
        await new Promise((done) => setTimeout(done, 25));
      }
    },
    close: () => station.close(),
  };
}
