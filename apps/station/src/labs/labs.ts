import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Lab, LabId } from '@sthene/contract';
import { standardGravity, type UtcInstant } from '@sthene/core';
import { type EngineOptions, folderFileStore, openStore } from '@sthene/store';
import { actingDevice } from '../access/caller.ts';
import { problems } from '../server/problem-error.ts';
import { type OpenLab, stationActor } from './open-lab.ts';
import { operators } from './operators.ts';
import { timeOrderedId } from './time-ordered-id.ts';

export interface LabsOptions {
  readonly data: string;
  /** PostgreSQL for the user's lab; the example is always embedded. */
  readonly database?: string;
  readonly application: string;
}

/** The labs of a data folder, each a folder of its own, opened when first asked for. */
export class Labs {
  readonly #options: LabsOptions;
  readonly #open = new Map<LabId, Promise<OpenLab>>();

  constructor(options: LabsOptions) {
    this.#options = options;
  }

  exists(id: LabId): boolean {
    return existsSync(join(this.#folder(id), id === 'lab' && this.#options.database ? 'recordings' : fileName));
  }

  /** An existing lab. Refuses with `lab-missing` where it was never set up. */
  async open(id: LabId): Promise<OpenLab> {
    if (!this.#open.has(id) && !this.exists(id)) throw problems.labMissing();
    return this.#opened(id);
  }

  /** Sets a lab up, or opens it where it exists. */
  async create(id: LabId, name: string): Promise<OpenLab> {
    mkdirSync(join(this.#folder(id), 'recordings'), { recursive: true });
    const lab = await this.#opened(id);
    if ((await lab.store.settings.get('lab.name')) === undefined)
      await lab.store.settings.set('lab.name', name, stationActor);
    return lab;
  }

  /** What the start screen says of a lab. */
  async describe(id: LabId): Promise<Lab> {
    const base = { id, demo: id === 'example', folder: this.#folder(id) };
    if (!this.exists(id)) return { ...base, name: defaultNames[id], exists: false, people: 0, sessions: 0, trials: 0 };
    const { store } = await this.open(id);
    const [people, sessions, name] = await Promise.all([
      store.people.list(),
      store.sessions.list({ limit: 1 }),
      store.settings.get<string>('lab.name'),
    ]);
    return {
      ...base,
      name: name?.value ?? defaultNames[id],
      exists: true,
      people: people.length,
      sessions: sessions.total,
      trials: await store.trials.count(),
    };
  }

  async close(): Promise<void> {
    const opened = await Promise.allSettled(this.#open.values());
    await Promise.all(opened.map((one) => (one.status === 'fulfilled' ? one.value.store.close() : undefined)));
    this.#open.clear();
  }

  #folder(id: LabId): string {
    return join(this.#options.data, id);
  }

  #opened(id: LabId): Promise<OpenLab> {
    const there = this.#open.get(id);
    if (there !== undefined) return there;
    const opening = this.#start(id);
    this.#open.set(id, opening);
    opening.catch(() => this.#open.delete(id));
    return opening;
  }

  async #start(id: LabId): Promise<OpenLab> {
    const folder = this.#folder(id);
    const ids = { next: timeOrderedId };
    const engine: EngineOptions =
      id === 'lab' && this.#options.database
        ? { kind: 'postgres', connection: this.#options.database }
        : { kind: 'sqlite', file: join(folder, fileName) };
    const store = await openStore({
      engine,
      files: folderFileStore({ folder, ids }),
      clock: { now: () => new Date().toISOString() as UtcInstant },
      ids,
      application: this.#options.application,
      place: actingDevice,
    });
    return {
      id,
      name: defaultNames[id],
      demo: id === 'example',
      folder,
      store,
      gravity: standardGravity,
      ...operators(store),
    };
  }
}

const fileName = 'sthene.sqlite';
const defaultNames: Readonly<Record<LabId, string>> = { lab: 'My lab', example: 'Fernwater (example)' };
