import { createReadStream } from 'node:fs';
import { statfs } from 'node:fs/promises';
import { join } from 'node:path';
import { decodeChunk, largestChunk, type VideoDraft, type VideoSettings, type VideoUpload } from '@sthene/contract';
import { StoreError, type Video } from '@sthene/store';
import { stationActor } from '../labs/open-lab.ts';
import type { LiveLab } from '../live/live-lab.ts';
import { problems } from '../server/problem-error.ts';
import { ChunkFolder, sha256Of } from './chunk-folder.ts';
import type { VideoFacts } from './facts.ts';
import { Filming, filmRuleOf } from './filming.ts';
import { findTrial } from './find-trial.ts';
import { matchFrames } from './match-frames.ts';
import { videoProblems } from './problems.ts';
import { remux } from './remux.ts';
import { readVideoSettings, writeVideoSettings } from './settings.ts';
import { stationTime } from './tie.ts';

/** A film whose effort is not found at once is looked at again, ms. */
const assignAgain = 3000;

export interface VideoLimits {
  /** Below so many free bytes nothing more is taken: the rest of the disk is for the forces. */
  readonly leastFree: number;
  /** Free bytes of the disk of a folder. */
  readonly free: (folder: string) => Promise<number>;
}

export const usualLimits: VideoLimits = {
  leastFree: 1024 ** 3,
  free: async (folder) => {
    const { bavail, bsize } = await statfs(folder);
    return bavail * bsize;
  },
};

/** Videos of a lab from the first piece to the seekable file beside its trial. */
export class Videos {
  readonly filming = new Filming();
  limits = usualLimits;
  readonly #live: LiveLab;
  readonly #queues = new Map<string, Promise<unknown>>();

  constructor(live: LiveLab) {
    this.#live = live;
  }

  async start(): Promise<void> {
    this.filming.settings = await readVideoSettings(this.#live.lab);
  }

  async changeSettings(settings: VideoSettings, by: string): Promise<VideoSettings> {
    this.filming.settings = await writeVideoSettings(this.#live.lab, settings, by);
    for (const rig of this.#live.rigs.keys()) this.#live.tellFloor(rig);
    return this.filming.settings;
  }

  /** Begins a video. Whether it may be made is decided here, whatever the device believes. */
  begin(id: string, draft: VideoDraft): Promise<VideoUpload> {
    return this.#inTurn(id, async () => {
      const { store } = this.#live.lab;
      const there = await store.videos.get(id);
      if (there !== undefined) return this.#upload(there);
      const known = this.filming.turn(draft.turn);
      if (known === undefined || known.rig !== draft.rig) throw videoProblems.otherTurn();
      const rule = this.filming.of(draft.rig, known.turn, this.#live.loaded);
      if (!rule.allowed) throw videoProblems.notAllowed(rule.words);
      await this.#needSpace();
      const facts: VideoFacts = { turn: draft.turn, startedAt: draft.startedAt };
      const { entry, person } = known.turn.view;
      const video = await store.videos.add(
        {
          id,
          rig: draft.rig,
          person: person.id,
          ...(entry === '' ? {} : { entry }),
          device: draft.device,
          filmedAt: this.#live.ports.clock.wall(),
          mediaType: draft.mediaType,
          facts: { ...facts },
        },
        stationActor,
      );
      return this.#upload(video);
    });
  }

  async show(id: string): Promise<VideoUpload> {
    return this.#upload(await this.#get(id));
  }

  /** Keeps a piece. The same piece again changes nothing, so that a device may send until it is answered. */
  async addChunk(id: string, index: number, sha256: string, body: unknown): Promise<VideoUpload> {
    const bytes = await bytesOf(body);
    if (sha256Of(bytes) !== sha256 || decodeChunk(bytes) === undefined) throw videoProblems.pieceDamaged(index);
    return this.#inTurn(id, async () => {
      const video = await this.#allowed(await this.#get(id));
      if (video.state !== 'receiving') {
        if (video.state === 'stored') return this.#upload(video);
        throw videoProblems.closed(video.state);
      }
      await this.#needSpace();
      const kept = await noSpaceAs(() => this.#folder(id).add(index, sha256, bytes));
      if (kept === 'other') throw videoProblems.pieceDiffers(index);
      return this.#upload(video);
    });
  }

  /** Puts the pieces together. Asking again gives the same answer. */
  finish(id: string, chunks: number): Promise<VideoUpload> {
    return this.#inTurn(id, async () => {
      const video = await this.#allowed(await this.#get(id));
      if (video.state !== 'receiving') return this.#upload(video);
      const here = new Set(await this.#folder(id).received());
      const missing = Array.from({ length: chunks }, (_, i) => i).filter((i) => !here.has(i));
      if (missing.length > 0) throw videoProblems.piecesMissing(missing);
      return this.#upload(await this.#store(video));
    });
  }

  /** Puts together what came of a video whose device fell silent. */
  finishAsIs(id: string): Promise<VideoUpload> {
    return this.#inTurn(id, async () => {
      const video = await this.#allowed(await this.#get(id));
      return this.#upload(video.state === 'receiving' ? await this.#store(video) : video);
    });
  }

  /** Gives up a video that is still received. */
  abandon(id: string): Promise<{ abandoned: boolean }> {
    return this.#inTurn(id, async () => {
      const video = await this.#live.lab.store.videos.get(id);
      if (video?.state !== 'receiving') return { abandoned: false };
      await this.#discard(video, 'given up by the device: no effort came');
      return { abandoned: true };
    });
  }

  /** Looks for the trial of a stored video; one that may not be shown of that trial's athlete is removed. */
  async assign(video: Video): Promise<Video> {
    const { lab } = this.#live;
    const found = await findTrial(lab, video);
    if (found === undefined) return video;
    const view = await lab.store.trials.view(found.trial);
    const rule = await filmRuleOf(lab, video, this.filming.settings, view);
    if (!rule.allowed) return lab.store.videos.drop(video.id, rule.words, stationActor);
    const facts = { ...video.facts, sync: found.sync };
    return lab.store.videos.change(video.id, { trial: found.trial, facts }, stationActor, { action: 'video.assign' });
  }

  async #store(video: Video): Promise<Video> {
    const { store } = this.#live.lab;
    const folder = this.#folder(video.id);
    if ((await folder.received()).length === 0) {
      await this.#discard(video, 'no piece of it arrived');
      return this.#get(video.id);
    }
    const [joined, seekable] = [join(folder.folder, 'joined'), join(folder.folder, 'seekable')];
    const heads = await noSpaceAs(() => folder.join(joined));
    const made = await remux(joined, seekable);
    if (made === undefined) {
      await folder.remove();
      return store.videos.change(video.id, { state: 'unreadable' }, stationActor, { action: 'video.unreadable' });
    }
    const { startedAt } = video.facts as unknown as VideoFacts;
    const seen = heads.flatMap(({ frames }) => frames).sort((a, b) => a - b);
    const ties = heads.flatMap(({ clock }) => (clock === undefined ? [] : [clock]));
    const file = await store.files.put(
      createReadStream(seekable) as AsyncIterable<Uint8Array>,
      made.mediaType === 'video/mp4' ? 'mp4' : 'webm',
    );
    const { width, height, duration, times } = made;
    const facts: Partial<VideoFacts> = { seen, ties, width, height, duration, times };
    const match = matchFrames(seen, times, startedAt, heads.at(-1)?.stoppedAt);
    const zero = match && stationTime(match.zero, ties);
    const began = match && zero && { began: { at: zero.at, uncertainty: zero.uncertainty + match.uncertainty } };
    const stored = await store.videos.change(
      video.id,
      {
        state: 'stored',
        mediaType: made.mediaType,
        sha256: file.sha256,
        byteCount: file.byteCount,
        facts: { ...video.facts, ...facts, ...began },
      },
      stationActor,
      { action: 'video.store' },
    );
    await folder.remove();
    const assigned = await this.assign(stored);
    // The effort itself may still be on its way to the store.
    if (assigned.trial === undefined) setTimeout(() => void this.#assignLater(video.id), assignAgain).unref();
    return assigned;
  }

  async #assignLater(id: string): Promise<void> {
    try {
      const video = await this.#live.lab.store.videos.get(id);
      if (video?.state === 'stored' && video.trial === undefined) await this.assign(video);
    } catch {
      // The station may be closing; what fails here is tried again by the sweep.
    }
  }

  /** Nothing of a video is kept once its athlete may not be filmed: a consent may end between two pieces. */
  async #allowed(video: Video): Promise<Video> {
    if (video.state !== 'receiving') return video;
    const rule = await filmRuleOf(this.#live.lab, video, this.filming.settings);
    if (rule.allowed) return video;
    await this.#discard(video, rule.words);
    throw videoProblems.notAllowed(rule.words);
  }

  async #discard(video: Video, reason: string): Promise<void> {
    await this.#folder(video.id).remove();
    await this.#live.lab.store.videos.drop(video.id, reason, stationActor);
  }

  async #needSpace(): Promise<void> {
    const free = await this.limits.free(this.#live.lab.folder);
    if (free < this.limits.leastFree) throw videoProblems.noSpace();
  }

  async #get(id: string): Promise<Video> {
    const video = await this.#live.lab.store.videos.get(id);
    if (video === undefined) throw problems.notFound('video');
    return video;
  }

  async #upload(video: Video): Promise<VideoUpload> {
    const received = video.state === 'receiving' ? await this.#folder(video.id).received() : [];
    return { id: video.id, state: video.state, received };
  }

  #folder(id: string): ChunkFolder {
    return new ChunkFolder(this.#live.lab.folder, id);
  }

  /** One thing at a time for each video: pieces may arrive side by side and twice. */
  #inTurn<T>(id: string, act: () => Promise<T>): Promise<T> {
    const turn = (this.#queues.get(id) ?? Promise.resolve()).then(act, act);
    const settled = turn.catch(() => {});
    this.#queues.set(id, settled);
    void settled.then(() => {
      if (this.#queues.get(id) === settled) this.#queues.delete(id);
    });
    return turn;
  }
}

async function bytesOf(body: unknown): Promise<Uint8Array> {
  if (body === undefined || body === null || typeof body !== 'object' || !(Symbol.asyncIterator in body))
    throw problems.notBytes();
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of body as AsyncIterable<Uint8Array>) {
    length += piece.length;
    if (length > largestChunk) throw videoProblems.pieceTooLarge();
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
}

/** A full disk, as the refusal that says so. */
async function noSpaceAs<T>(act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (code === 'ENOSPC' || code === 'EDQUOT' || (error instanceof StoreError && code === 'disk-full'))
      throw videoProblems.noSpace();
    throw error;
  }
}
