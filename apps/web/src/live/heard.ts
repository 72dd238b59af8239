import type { ToStation } from '@sthene/contract';

/** When a cue was heard or seen at this device, and how well that is known. Times in ms of the device's clock. */
export interface Heard {
  readonly at: number;
  readonly way: 'tone' | 'voice' | 'flash';
  /** Delay of the output contained in `at`. */
  readonly delay: number;
  /** From the output's own time stamps, as the browser states it, or not known: the delay is then a guess of 0. */
  readonly delayFrom: 'measured' | 'stated' | 'unknown';
}

export const soundedMessage = (cue: string, { at, way, delay, delayFrom }: Heard): ToStation => ({
  type: 'cue-sounded',
  cue,
  at,
  way,
  delay: Math.max(0, Math.min(5000, delay)),
  delayFrom,
});

/** What an audio output says of itself, in its own units: seconds of its clock, ms of the page's. */
export interface OutputClock {
  readonly currentTime: number;
  readonly outputLatency?: number | undefined;
  readonly baseLatency?: number | undefined;
  /** Which moment of the output is being heard, and when: both 0 where the browser does not tell. */
  readonly stamp?: { readonly contextTime: number; readonly performanceTime: number } | undefined;
}

/** A time stamp older than this does not speak of now, ms. */
const staleStamp = 500;

/**
 * When a sound that was scheduled at `start` of the output's clock is heard. The time stamp of the output says which moment of it
 * leaves the loudspeaker at which time of the device; without one the latency that the browser states is added.
 *
 * @param start seconds of the output's clock
 * @param now device clock, ms
 * @source Web Audio API, W3C Recommendation (17 June 2021), 1.2: getOutputTimestamp, baseLatency, outputLatency
 */
export function heardAt(start: number, output: OutputClock, now: number): Pick<Heard, 'at' | 'delay' | 'delayFrom'> {
  const { currentTime, stamp, outputLatency, baseLatency } = output;
  const asked = now + 1000 * (start - currentTime);
  if (stamp !== undefined && stamp.performanceTime > 0 && now - stamp.performanceTime < staleStamp) {
    const at = stamp.performanceTime + 1000 * (start - stamp.contextTime);
    // A stamp that says a sound is heard before it was asked for is wrong.
    if (at >= asked - 1) return { at: Math.max(at, asked), delay: Math.max(0, at - asked), delayFrom: 'measured' };
  }
  const stated = 1000 * (outputLatency || baseLatency || 0);
  return { at: asked + stated, delay: stated, delayFrom: stated > 0 ? 'stated' : 'unknown' };
}
