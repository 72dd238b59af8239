import { setImmediate as turn, setTimeout as wait } from 'node:timers/promises';
import type { Lab, LabId, StationInfo } from '@sthene/contract';
import { Devices } from '../access/devices.ts';
import { type BuildProgress, buildExample } from '../example/build-example.ts';
import { Labs, type LabsOptions } from '../labs/labs.ts';
import { loadFloorSettings } from '../live/floor-settings.ts';
import { LiveLab } from '../live/live-lab.ts';
import type { LivePorts } from '../live/ports.ts';
import { recover } from '../live/recovery.ts';
import { stationPorts } from '../live/station-ports.ts';
import { Recomputing } from './recompute/recomputing.ts';

/** The station: its labs and what it says of itself. */
export class Station {
  readonly application: { readonly name: string; readonly version: string };
  readonly labs: Labs;
  /** Tablets, wall screens and others that were paired. */
  readonly devices: Devices;
  readonly #engine: 'sqlite' | 'postgres';
  readonly #ports: LivePorts;
  readonly #live = new Map<LabId, Promise<LiveLab>>();
  readonly #running = new Set<LiveLab>();
  readonly #recomputing = new Map<LabId, Promise<Recomputing>>();
  #building: Promise<void> | undefined;
  #progress: BuildProgress | undefined;

  constructor(options: LabsOptions & { readonly version: string; readonly ports?: LivePorts }) {
    this.#ports = options.ports ?? stationPorts;
    this.application = { name: 'sthene', version: options.version };
    this.labs = new Labs(options);
    this.devices = new Devices(this.labs);
    this.#engine = options.database === undefined ? 'sqlite' : 'postgres';
  }

  /** @param only the one lab a device was paired with; it is told of no other, nor where the data lie */
  async info(only?: LabId): Promise<StationInfo> {
    const labs = [await this.labs.describe('lab'), await this.#describeExample()];
    return {
      application: this.application.name,
      version: this.application.version,
      engine: this.#engine,
      labs: only === undefined ? labs : labs.filter(({ id }) => id === only).map((lab) => ({ ...lab, folder: '' })),
    };
  }

  /** Sets up the user's lab, or builds the example; asking again while it is built waits for the same one. */
  async createLab(id: LabId, name: string | undefined): Promise<Lab> {
    const lab = await this.labs.create(id, name ?? (id === 'example' ? 'Fernwater (example)' : 'My lab'));
    if (id === 'example') {
      this.#building ??= buildExample(lab, (progress) => {
        this.#progress = progress;
      }).finally(() => {
        this.#building = undefined;
        this.#progress = undefined;
      });
      await this.#building;
    }
    return this.labs.describe(id);
  }

  /** What goes on live in a lab. The first call puts right what a kill left behind, and goes on with a day that is open. */
  live(id: LabId): Promise<LiveLab> {
    const there = this.#live.get(id);
    if (there !== undefined) return there;
    const starting = this.#startLive(id);
    this.#live.set(id, starting);
    starting.catch(() => this.#live.delete(id));
    return starting;
  }

  async #startLive(id: LabId): Promise<LiveLab> {
    const live = new LiveLab(await this.labs.open(id), this.#ports);
    this.#running.add(live);
    await loadFloorSettings(live);
    await live.videos.start();
    await recover(live);
    // What is left of films must not keep a test day from beginning.
    void live.videoKeeping.start().catch((error: unknown) => live.videoKeeping.failed(error));
    return live;
  }

  /** Efforts were judged otherwise than by their day: one that is open is read again and told. */
  judged(id: LabId): void {
    this.#live.get(id)?.then(
      (live) => live.judged(),
      () => {},
    );
  }

  /** Whether plates of any lab are being measured: then nothing else takes the machine's time. */
  readonly measuring = (): boolean => [...this.#running].some(({ rigs }) => rigs.size > 0);

  /** Between two steps of longer work: others come first, and an effort before all. */
  readonly breath = async (): Promise<void> => {
    await turn();
    while ([...this.#running].some((live) => live.effortUnderWay())) await wait(200);
  };

  /** What judges the archive of a lab again. */
  recomputing(id: LabId): Promise<Recomputing> {
    const there = this.#recomputing.get(id);
    if (there !== undefined) return there;
    const starting = this.labs.open(id).then((lab) => new Recomputing(lab, this.measuring));
    this.#recomputing.set(id, starting);
    starting.catch(() => this.#recomputing.delete(id));
    return starting;
  }

  /** Goes on with what was under way in the labs that are there. */
  async resume(): Promise<void> {
    for (const id of ['lab', 'example'] as const) {
      if (!this.labs.exists(id)) continue;
      await this.live(id);
      const { store } = await this.labs.open(id);
      const [run] = await store.recomputations.list({ state: 'running' });
      if (run !== undefined) (await this.recomputing(id)).begin(run.id);
    }
  }

  async close(): Promise<void> {
    for (const work of this.#recomputing.values()) await work.then((one) => one.stop()).catch(() => {});
    this.#recomputing.clear();
    this.#running.clear();
    for (const live of this.#live.values()) await live.then((one) => one.stop()).catch(() => {});
    this.#live.clear();
    await this.labs.close();
  }

  async #describeExample(): Promise<Lab> {
    const example = await this.labs.describe('example');
    return this.#progress === undefined ? example : { ...example, progress: this.#progress };
  }
}
