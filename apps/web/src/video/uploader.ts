import {
  ApiProblem,
  type ClockTie,
  call,
  encodeChunk,
  type LabId,
  type Problem,
  type VideoDraft,
  videoRoutes,
} from '@sthene/contract';
import { base, fetcher } from '../data/station.ts';

/** How an upload stands. */
export interface UploadState {
  /** Pieces that are not safe on the station's disk yet. */
  readonly waiting: number;
  /** Device clock when the last piece was confirmed, ms. */
  readonly confirmedAt?: number;
  /** Films that are safe, since this screen was opened. */
  readonly films: number;
  /** The station cannot be reached; it is tried again. */
  readonly retrying: boolean;
  /** Why the last film was not kept. */
  readonly refused?: Problem | undefined;
}

/** What the uploader asks of the station; tests supply a bad one. */
export interface UploadPort {
  begin(id: string, draft: VideoDraft): Promise<unknown>;
  chunk(id: string, index: number, body: Uint8Array<ArrayBuffer>): Promise<unknown>;
  finish(id: string, chunks: number): Promise<unknown>;
  received(id: string): Promise<readonly number[]>;
  abandon(id: string): Promise<unknown>;
}

interface Film {
  readonly id: string;
  readonly draft: VideoDraft;
  begun: boolean;
  readonly bodies: Uint8Array<ArrayBuffer>[];
  readonly safe: Set<number>;
  done: 'no' | 'keep' | 'discard';
}

const waits = [300, 600, 1200, 2500, 5000];

/**
 * Sends films piece by piece while they are recorded, one request at a time, and each again until it is answered. Nothing lies in the
 * browser's storage: a page that is closed loses what is not confirmed yet, at most the last piece where the station was reached.
 */
export class Uploader {
  readonly #port: UploadPort;
  readonly #changed: (state: UploadState) => void;
  readonly #now: () => number;
  readonly #wait: (ms: number) => Promise<void>;
  #films: Film[] = [];
  #working = false;
  #failures = 0;
  #state: UploadState = { waiting: 0, films: 0, retrying: false };

  constructor(
    port: UploadPort,
    changed: (state: UploadState) => void,
    now: () => number = () => performance.now(),
    wait: (ms: number) => Promise<void> = (ms) => new Promise((done) => setTimeout(done, ms)),
  ) {
    this.#port = port;
    this.#changed = changed;
    this.#now = now;
    this.#wait = wait;
  }

  get state(): UploadState {
    return this.#state;
  }

  begin(id: string, draft: VideoDraft): void {
    this.#films.push({ id, draft, begun: false, bodies: [], safe: new Set(), done: 'no' });
    this.#go();
  }

  add(
    id: string,
    piece: Uint8Array,
    head: { readonly frames: readonly number[]; readonly clock?: ClockTie | undefined; readonly stoppedAt?: number },
  ): void {
    const film = this.#films.find((one) => one.id === id);
    if (film === undefined) return;
    const { clock, stoppedAt } = head;
    film.bodies.push(
      encodeChunk(
        {
          frames: [...head.frames],
          ...(clock === undefined ? {} : { clock }),
          ...(stoppedAt === undefined ? {} : { stoppedAt }),
        },
        piece,
      ),
    );
    this.#go();
  }

  end(id: string, how: 'keep' | 'discard'): void {
    const film = this.#films.find((one) => one.id === id);
    if (film !== undefined) film.done = how;
    this.#go();
  }

  /** Resolves when nothing is left to send or to give up. */
  async settled(): Promise<void> {
    while (this.#working) await this.#wait(10);
  }

  #go(): void {
    this.#tell({});
    if (this.#working) return;
    this.#working = true;
    void this.#work().finally(() => {
      this.#working = false;
      // Something may have come while the last look was over already.
      if (this.#films.some((one) => stepOf(one) !== undefined)) this.#go();
    });
  }

  async #work(): Promise<void> {
    for (;;) {
      const film = this.#films.find((one) => stepOf(one) !== undefined);
      if (film === undefined) return;
      try {
        await this.#step(film);
        this.#failures = 0;
        if (this.#state.retrying) this.#tell({ retrying: false });
      } catch (error) {
        await this.#failed(film, error);
      }
    }
  }

  async #step(film: Film): Promise<void> {
    const step = stepOf(film);
    switch (step?.kind) {
      case undefined:
        return;
      case 'begin':
        await this.#port.begin(film.id, film.draft);
        film.begun = true;
        return;
      case 'chunk':
        await this.#port.chunk(film.id, step.index, film.bodies[step.index] as Uint8Array<ArrayBuffer>);
        film.safe.add(step.index);
        this.#tell({ confirmedAt: this.#now() });
        return;
      case 'finish':
        await this.#port.finish(film.id, film.bodies.length);
        this.#forget(film);
        this.#tell({ films: this.#state.films + 1, refused: undefined });
        return;
      case 'abandon':
        if (film.begun) await this.#port.abandon(film.id);
        this.#forget(film);
        return;
    }
  }

  async #failed(film: Film, error: unknown): Promise<void> {
    const problem = error instanceof ApiProblem ? error.problem : undefined;
    if (problem?.code === 'video-pieces-missing') {
      const received = await this.#port.received(film.id).catch(() => []);
      film.safe.clear();
      for (const index of received) film.safe.add(index);
      return;
    }
    const passing = problem === undefined || problem.status === 0 || (problem.status >= 500 && problem.status !== 507);
    if (!passing && problem.code !== 'video-piece-damaged') {
      this.#forget(film);
      this.#tell({ refused: problem });
      return;
    }
    this.#tell({ retrying: true });
    await this.#wait(waits[Math.min(this.#failures++, waits.length - 1)] as number);
  }

  #forget(film: Film): void {
    this.#films = this.#films.filter((one) => one !== film);
    this.#tell({});
  }

  #tell(change: Partial<UploadState>): void {
    const waiting = this.#films.reduce(
      (sum, { bodies, safe, done }) => sum + (done === 'discard' ? 0 : bodies.length - safe.size),
      0,
    );
    this.#state = { ...this.#state, ...change, waiting };
    this.#changed(this.#state);
  }
}

/** What is to be done next for a film; undefined: nothing now. */
function stepOf(film: Film): { kind: 'begin' | 'finish' | 'abandon' } | { kind: 'chunk'; index: number } | undefined {
  if (film.done === 'discard') return { kind: 'abandon' };
  if (!film.begun) return { kind: 'begin' };
  const index = film.bodies.findIndex((_, i) => !film.safe.has(i));
  if (index >= 0) return { kind: 'chunk', index };
  return film.done === 'keep' ? { kind: 'finish' } : undefined;
}

/** The station's own interface. */
export function uploadPort(lab: LabId): UploadPort {
  const at = (id: string) => ({ lab, id });
  return {
    begin: (id, body) => call(fetcher, base, videoRoutes.beginVideo, { params: at(id), body }),
    chunk: async (id, index, bytes) =>
      call(fetcher, base, videoRoutes.addChunk, {
        params: { ...at(id), index },
        query: { sha256: await sha256Of(bytes) },
        bytes,
      }),
    finish: (id, chunks) => call(fetcher, base, videoRoutes.finishVideo, { params: at(id), body: { chunks } }),
    received: async (id) => (await call(fetcher, base, videoRoutes.videoUpload, { params: at(id) })).received,
    abandon: (id) => call(fetcher, base, videoRoutes.abandonVideo, { params: at(id) }),
  };
}

async function sha256Of(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
