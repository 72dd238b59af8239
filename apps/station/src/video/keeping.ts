import type { UtcInstant } from '@sthene/core';
import { stationActor } from '../labs/open-lab.ts';
import { dateOf } from '../live/clock.ts';
import type { LiveLab } from '../live/live-lab.ts';
import { ChunkFolder } from './chunk-folder.ts';

const day = 24 * 3600 * 1000;
/** A device that has sent nothing for so long is gone, ms. */
const silentFor = 90_000;
/** Without an effort a video is nobody's: it is removed after a day. */
const strayDays = 1;
const sweepEvery = 30_000;

/** Last day on which a video is kept. */
export const keptUntil = (filmedAt: string, days: number): string =>
  new Date(Date.parse(filmedAt) + days * day).toISOString().slice(0, 10);

/** What is to be done about videos now and then, whether or not anybody looks. */
export class VideoKeeping {
  readonly #live: LiveLab;
  #timer: NodeJS.Timeout | undefined;
  #dropped = '';
  #busy = false;

  constructor(live: LiveLab) {
    this.#live = live;
  }

  /** Does it once now, then again and again. */
  async start(): Promise<void> {
    await this.sweep();
    this.#timer = setInterval(
      () => void this.sweep().catch((error: unknown) => this.failed(error)),
      sweepEvery,
    ).unref();
  }

  stop(): void {
    clearInterval(this.#timer);
  }

  /** Ends what fell silent, finds trials, and once a day removes what has been kept long enough. */
  async sweep(): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    try {
      await this.#finishSilent();
      await this.#assign();
      const today = dateOf(this.#live.ports.clock.wall());
      if (this.#dropped !== today) {
        await this.dropOld();
        this.#dropped = today;
      }
    } finally {
      this.#busy = false;
    }
  }

  async #finishSilent(): Promise<void> {
    const { lab, videos } = this.#live;
    for (const video of await lab.store.videos.list({ state: 'receiving' })) {
      const last = (await new ChunkFolder(lab.folder, video.id).lastAt()) ?? Date.parse(video.filmedAt);
      if (this.#live.now - last < silentFor) continue;
      await videos.finishAsIs(video.id).catch(ifRefused);
    }
  }

  async #assign(): Promise<void> {
    const { lab, videos } = this.#live;
    for (const video of await lab.store.videos.list({ state: 'stored', trial: 'none' })) await videos.assign(video);
  }

  /** Removes what has been kept for as long as the lab decided, and what nobody pulled in. @returns how many */
  async dropOld(): Promise<number> {
    const { lab, videos } = this.#live;
    const { keepDays } = videos.filming.settings;
    const before = (days: number) => new Date(this.#live.now - days * day).toISOString() as UtcInstant;
    let count = 0;
    if (keepDays !== undefined)
      for (const { id } of await lab.store.videos.list({ state: 'stored', before: before(keepDays) })) {
        const days = keepDays === 1 ? '1 day' : `${keepDays} days`;
        await lab.store.videos.drop(id, `kept for ${days}, as the lab decided`, stationActor);
        count++;
      }
    for (const { id } of await lab.store.videos.list({ state: 'stored', before: before(strayDays), trial: 'none' })) {
      await lab.store.videos.drop(id, 'no effort was found that it shows', stationActor);
      count++;
    }
    return count;
  }

  failed(error: unknown): void {
    this.#live.raise({
      severity: 'warning',
      code: 'videos-not-kept',
      words: `Videos could not be put in order: ${error instanceof Error ? error.message : String(error)}`,
      next: 'Forces are not touched by this. Look at the disk; it is tried again.',
    });
  }
}

/** A refusal has been carried out already; anything else is a failure. */
function ifRefused(error: unknown): void {
  if (!(error instanceof Error && error.name === 'ProblemError')) throw error;
}
