import type { Lab, LabId, StationInfo } from '@sthene/contract';
import { type BuildProgress, buildExample } from '../example/build-example.ts';
import { Labs, type LabsOptions } from '../labs/labs.ts';

/** The station: its labs and what it says of itself. */
export class Station {
  readonly application: { readonly name: string; readonly version: string };
  readonly labs: Labs;
  readonly #engine: 'sqlite' | 'postgres';
  #building: Promise<void> | undefined;
  #progress: BuildProgress | undefined;

  constructor(options: LabsOptions & { readonly version: string }) {
    this.application = { name: 'sthene', version: options.version };
    this.labs = new Labs(options);
    this.#engine = options.database === undefined ? 'sqlite' : 'postgres';
  }

  async info(): Promise<StationInfo> {
    return {
      application: this.application.name,
      version: this.application.version,
      engine: this.#engine,
      labs: [await this.labs.describe('lab'), await this.#describeExample()],
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

  async #describeExample(): Promise<Lab> {
    const example = await this.labs.describe('example');
    return this.#progress === undefined ? example : { ...example, progress: this.#progress };
  }
}
