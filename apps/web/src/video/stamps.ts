/**
 * Notes when each frame was captured, on the device's clock, ms. A recorder says when it began a quarter of a second late and never
 * when its frames were taken, so the frames of the live picture are noted; they are the same ones.
 */
export class FrameStamps {
  readonly #video: HTMLVideoElement;
  #handle = 0;
  #stamps: number[] = [];
  /** Least delay seen between a frame's own time and now; places frames of sources that know no capture time. */
  #least = Number.POSITIVE_INFINITY;
  frames = 0;

  constructor(video: HTMLVideoElement) {
    this.#video = video;
    const tick: VideoFrameRequestCallback = (now, frame) => {
      const own = 1000 * frame.mediaTime;
      this.#least = Math.min(this.#least, now - own);
      this.#stamps.push(frame.captureTime ?? own + this.#least);
      this.frames++;
      // What nobody takes is forgotten: a minute of frames.
      if (this.#stamps.length > 4000) this.#stamps = this.#stamps.slice(-2000);
      this.#handle = video.requestVideoFrameCallback(tick);
    };
    this.#handle = video.requestVideoFrameCallback(tick);
  }

  /** The frames since the last call. */
  take(): number[] {
    const taken = this.#stamps;
    this.#stamps = [];
    return taken;
  }

  /** Forgets all but the last frames, which a recorder that begins now may still write. */
  begin(now: number): void {
    this.#stamps = this.#stamps.filter((at) => at >= now - 500);
  }

  stop(): void {
    this.#video.cancelVideoFrameCallback(this.#handle);
  }
}
