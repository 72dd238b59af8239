import type { ClockTie } from '@sthene/contract';
import { FrameStamps } from './stamps.ts';
import type { Uploader } from './uploader.ts';

/** Length of a piece, ms: what a closed tablet loses at most. */
const pieceEvery = 1000;
const bitsPerSecond = 3_000_000;

export interface FilmOf {
  readonly id: string;
  readonly rig: string;
  readonly turn: string;
  readonly device: string;
}

interface Running {
  readonly recorder: MediaRecorder;
  how: 'keep' | 'discard';
  /** When it was told to stop, ms: no frame of the film is later. */
  stoppedAt?: number;
}

/** Records one film after the other from a live picture and hands the pieces on with their frame times. */
export class FilmRecorder {
  readonly stamps: FrameStamps;
  readonly #stream: MediaStream;
  readonly #mediaType: string;
  readonly #uploader: Uploader;
  readonly #clock: () => ClockTie | undefined;
  readonly #now: () => number;
  #running: Running | undefined;

  constructor(parts: {
    readonly stream: MediaStream;
    readonly mediaType: string;
    /** Shows the stream; its frames are the ones that are stamped. */
    readonly picture: HTMLVideoElement;
    readonly uploader: Uploader;
    readonly clock: () => ClockTie | undefined;
    readonly now: () => number;
  }) {
    this.#stream = parts.stream;
    this.#mediaType = parts.mediaType;
    this.#uploader = parts.uploader;
    this.#clock = parts.clock;
    this.#now = parts.now;
    this.stamps = new FrameStamps(parts.picture);
  }

  get running(): boolean {
    return this.#running !== undefined;
  }

  start({ id, ...of }: FilmOf): void {
    this.end('keep');
    const options = {
      mimeType: this.#mediaType,
      videoBitsPerSecond: bitsPerSecond,
      // Often a whole picture, so that stepping back is quick.
      videoKeyFrameIntervalDuration: 500,
    };
    const recorder = new MediaRecorder(this.#stream, options);
    const running: Running = { recorder, how: 'keep' };
    this.#running = running;
    const startedAt = this.#now();
    this.stamps.begin(startedAt);
    // Pieces are read one after the other: their order is the film.
    let reading: Promise<void> = Promise.resolve();
    recorder.ondataavailable = ({ data }) => {
      // A camera that is gone ends its film by itself.
      if (recorder.state === 'inactive') running.stoppedAt ??= this.#now();
      if (data.size === 0 || running.how === 'discard') return;
      const head = {
        frames: this.stamps.take(),
        clock: this.#clock(),
        ...(running.stoppedAt === undefined ? {} : { stoppedAt: running.stoppedAt }),
      };
      reading = reading.then(async () => this.#uploader.add(id, new Uint8Array(await data.arrayBuffer()), head));
    };
    recorder.onstop = () => {
      void reading.then(() => this.#uploader.end(id, running.how));
      if (this.#running === running) this.#running = undefined;
    };
    recorder.onerror = () => this.end('keep');
    this.#uploader.begin(id, { ...of, mediaType: this.#mediaType, startedAt });
    recorder.start(pieceEvery);
  }

  /** Ends the film under way; the last piece follows by itself. */
  end(how: 'keep' | 'discard'): void {
    const running = this.#running;
    if (running === undefined) return;
    this.#running = undefined;
    running.how = how;
    running.stoppedAt = this.#now();
    if (running.recorder.state !== 'inactive') running.recorder.stop();
  }

  /** Ends everything; the camera's light goes out. */
  close(): void {
    this.end('keep');
    this.stamps.stop();
    for (const track of this.#stream.getTracks()) track.stop();
  }
}
