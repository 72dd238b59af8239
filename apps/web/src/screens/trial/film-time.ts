import type { VideoView } from '@sthene/contract';

type Placed = Pick<VideoView, 'sync' | 'nudge' | 'frames' | 'duration'>;

/** Recording time of an instant of the film, s; undefined where the film has no place beside the curve. */
export function recordingTime({ sync }: Placed, nudge: number, film: number): number | undefined {
  return sync && sync.start + nudge + sync.rate * film;
}

/** Instant of the film at a recording time, s; may lie outside the film. */
export function filmTime({ sync }: Placed, nudge: number, recording: number): number | undefined {
  return sync && (recording - sync.start - nudge) / sync.rate;
}

/** The frame taken closest to an instant; undefined when that lies more than a frame before the first or after the last. */
export function nearestFrame({ frames }: Placed, film: number): number | undefined {
  if (frames.length === 0) return undefined;
  let low = 0;
  let high = frames.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((frames[middle] as number) < film) low = middle + 1;
    else high = middle;
  }
  const before = Math.max(0, low - 1);
  const nearer = Math.abs((frames[before] as number) - film) <= Math.abs((frames[low] as number) - film) ? before : low;
  const edge = frameLength({ frames });
  const outside = film < (frames[0] as number) - edge || film > (frames.at(-1) as number) + edge;
  return outside ? undefined : nearer;
}

/** The frame on the screen at an instant of the player: the last one that began. */
export function shownFrame({ frames }: Placed, player: number): number {
  let shown = 0;
  for (let i = 0; i < frames.length && (frames[i] as number) <= player + 0.0005; i++) shown = i;
  return shown;
}

/** Where to put the player so that it shows a frame and no neighbour: the middle of the time it stands. */
export function playerTime({ frames }: Placed, frame: number): number {
  const at = frames[frame] as number;
  const next = frames[frame + 1];
  return next === undefined ? at + 0.001 : (at + next) / 2;
}

/** Median distance of two frames, s. */
export function frameLength({ frames }: Pick<Placed, 'frames'>): number {
  const gaps = frames.slice(1).map((at, i) => at - (frames[i] as number));
  gaps.sort((a, b) => a - b);
  return gaps[gaps.length >> 1] ?? 0.04;
}
