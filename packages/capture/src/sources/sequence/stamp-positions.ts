import type { Run } from '../codec/run.ts';
import type { Positions } from './position.ts';

/** Unevenness that is believed at first and at most, s. */
const widest = 0.1;
/** A stamp this many times as uneven as they usually are left samples out. */
const unusual = 6;
/** Stretch over which the usual unevenness is learned, s. */
const memory = 0.5;
/** Share by which what is expected follows a stamp. */
const following = 0.05;

/**
 * Positions by time stamps of a stream that has no counter. A run without a stamp follows the one before it.
 *
 * Programs stamp samples as evenly as they can, and some cannot: so the usual unevenness is learned from the stream itself (the mean
 * distance of a stamp from what was expected, over half a second), and only a stamp that is later than six times of that, three quarters of a
 * sample and at most 0.1 s, left samples out. A shorter loss cannot be told. A stamp that is early is unevenness, too; one that is not
 * newer than a stamp that came before goes back: the run came late or twice.
 *
 * @param rate nominal, Hz
 */
export function stampPositions(rate: number): Positions {
  /** Stamp expected next, and the newest that came; undefined before the first. */
  let expected: number | undefined;
  let newest = 0;
  let scatter = widest / unusual;
  const tolerance = () => Math.min(widest, Math.max(0.75 / rate, unusual * scatter));
  return {
    ahead(run) {
      if (run.time === undefined) return undefined;
      if (expected === undefined) return 0;
      const late = run.time - expected;
      if (run.time <= newest) return Math.min(-run.count, Math.round(late * rate));
      return late <= tolerance() ? 0 : Math.max(1, Math.round(late * rate));
    },
    // A loss within the unevenness of the stamps cannot be told by them.
    tell: false,
    skip(samples) {
      if (expected !== undefined) expected += samples / rate;
    },
    follows(first, second) {
      if (first.time === undefined || second.time === undefined) return second.time === undefined;
      const between = (second.time - first.time) * rate;
      return between > 0 && between <= 4 * first.count + widest * rate;
    },
    accept(run) {
      const seconds = run.count / rate;
      if (run.time === undefined) {
        if (expected !== undefined) expected += seconds;
        return;
      }
      const late = expected === undefined ? 0 : run.time - expected;
      const usual = Math.abs(late) <= tolerance();
      if (usual) scatter += (Math.abs(late) - scatter) * Math.min(1, seconds / memory);
      expected = (expected === undefined || !usual ? run.time : expected + following * late) + seconds;
      newest = run.time;
    },
    period: Number.POSITIVE_INFINITY,
    seconds: (run: Run) => run.time ?? expected,
  };
}
