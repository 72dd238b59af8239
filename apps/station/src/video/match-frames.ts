/** How frames of a file were found among those the device saw. Times in ms of the device's clock. */
export interface FrameMatch {
  /** Device time of the file's time 0. */
  readonly zero: number;
  /** Half width within which `zero` lies: spread of the match, and a whole frame where the frames could be shifted by one. */
  readonly uncertainty: number;
  /** Frames of the file that were seen by the device. */
  readonly matched: number;
}

/**
 * A frame of the file is one the device saw when they lie that close, ms: files keep whole milliseconds. Wider, and chance alone lets a
 * wrong shift collect more frames than the right one where many were not seen.
 */
const tolerance = 1.5;
/** Frames that a recorder may still have in hand when it is told to start, ms before, and how late its first may come. */
const before = 100;
const after = 1500;

/**
 * Finds the shift between the times in a file and the device's clock. Both sides are the same frames: the recorder writes the spacing
 * of their capture times, the device noted the capture times themselves, some of them missing on either side. The shift under which
 * most frames meet is the right one; uneven spacing makes it unmistakable, and of shifts that fit equally well the first after the
 * recorder was started is taken and the doubt is told.
 *
 * @param seen capture times noted by the device, ms, ascending
 * @param times frames of the file, s from its first, ascending
 * @param startedAt device clock when the recorder was started, ms
 * @param stoppedAt and when it was stopped, where that is known: no frame of the file is later
 */
export function matchFrames(
  seen: readonly number[],
  times: readonly number[],
  startedAt: number,
  stoppedAt = Number.POSITIVE_INFINITY,
): FrameMatch | undefined {
  const latest = stoppedAt - 1000 * (times.at(-1) ?? 0) + 5;
  const tried = likelyShifts(seen, times, startedAt)
    .filter((zero) => zero <= latest)
    .map((zero) => ({ zero, ...fit(seen, times, zero) }))
    .filter(({ matched }) => matched > 0);
  const most = Math.max(0, ...tried.map(({ matched }) => matched));
  const fair = tried.filter(({ matched }) => matched >= 0.85 * most).sort((a, b) => a.zero - b.zero);
  // A recorder begins with what is captured after its start, or at most with a frame that was still on its way.
  const best = fair.find(({ zero }) => zero >= startedAt - 1) ?? fair.at(-1);
  if (best === undefined) return undefined;
  const doubtful = fair.some(({ zero }) => Math.abs(zero - best.zero) > 5);
  return {
    zero: best.zero + best.mean,
    // Where fewer than half were found again, it may be chance after all.
    uncertainty:
      Math.max(1, 2 * best.spread) + (doubtful || 2 * best.matched < times.length ? typicalInterval(times) : 0),
    matched: best.matched,
  };
}

/** Shifts under which many frames meet: every pair of a seen frame and one of the file votes for one, to the millisecond. */
function likelyShifts(seen: readonly number[], times: readonly number[], startedAt: number): number[] {
  const votes = new Map<number, number>();
  let from = 0;
  for (const time of times) {
    const earliest = startedAt - before + 1000 * time;
    while (from < seen.length && (seen[from] as number) < earliest) from++;
    for (let i = from; i < seen.length; i++) {
      const shift = Math.round((seen[i] as number) - 1000 * time - startedAt);
      if (shift > after) break;
      votes.set(shift, (votes.get(shift) ?? 0) + 1);
    }
  }
  const near = (shift: number) => (votes.get(shift - 1) ?? 0) + (votes.get(shift) ?? 0) + (votes.get(shift + 1) ?? 0);
  return [...votes.keys()]
    .map((shift) => ({ shift, count: near(shift) }))
    .sort((a, b) => b.count - a.count)
    .slice(0, 200)
    .map(({ shift }) => startedAt + shift);
}

/** How many frames meet under a shift, how far off they are on average, and how much that varies. */
function fit(seen: readonly number[], times: readonly number[], zero: number) {
  let matched = 0;
  let sum = 0;
  let squares = 0;
  let at = 0;
  for (const time of times) {
    const wanted = zero + 1000 * time;
    while (
      at + 1 < seen.length &&
      Math.abs((seen[at + 1] as number) - wanted) <= Math.abs((seen[at] as number) - wanted)
    )
      at++;
    const off = (seen[at] as number) - wanted;
    if (Math.abs(off) > tolerance) continue;
    matched++;
    sum += off;
    squares += off * off;
  }
  const mean = matched === 0 ? 0 : sum / matched;
  return { matched, mean, spread: matched === 0 ? 0 : Math.sqrt(Math.max(0, squares / matched - mean * mean)) };
}

/** Median distance of neighbouring frames, ms. */
export function typicalInterval(times: readonly number[]): number {
  const gaps = times.slice(1).map((time, i) => 1000 * (time - (times[i] as number)));
  gaps.sort((a, b) => a - b);
  return gaps[gaps.length >> 1] ?? 0;
}
