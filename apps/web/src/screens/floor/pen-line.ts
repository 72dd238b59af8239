import type { Scale } from '../../curve/scale.ts';
import type { Mark } from '../../curve/scene.ts';
import { endOf, type Trace } from '../../live/index.ts';
import type { ForceView } from './numbers.ts';

/** Extremes that lie closer than this, in pixels, are drawn as one point: the line is thicker. */
const oneLine = 1;

/**
 * The total as a line through the extremes of what falls into a pixel, and the pen's point. This is painted fifty times a second: each
 * point that cannot be seen is left out. Buckets go together by their place in the recording, so that the line moves and does not flicker.
 *
 * @param seconds shown
 */
export function penLine(trace: Trace, { less }: Pick<ForceView, 'less'>, x: Scale, y: Scale, seconds: number): Mark[] {
  const { bucket, rate, low: lows, high: highs } = trace;
  const marks: Mark[] = [];
  const end = endOf(trace);
  const from = Math.max(0, lows.length - Math.ceil((seconds * rate) / bucket));
  const together = Math.max(1, Math.floor(1.01 / (x.at(bucket / rate) - x.at(0))));
  const begin = Math.round(trace.first / bucket);
  let points: number[] = [];
  const finish = () => {
    if (points.length >= 4) marks.push({ kind: 'path', points, stroke: { ink: 'ink', width: 2.4 } });
    points = [];
  };
  for (let i = from; i < lows.length; ) {
    const next = Math.min(lows.length, i + together - ((begin + i) % together));
    const found = extremes(trace, i, next);
    if (found === undefined) finish();
    else {
      const px = (part: number) => x.at((trace.first + (i + part * (next - i)) * bucket - end) / rate);
      const [bottom, top] = [y.at(found[0] - less), y.at(found[1] - less)];
      // The nearer one first, each in its half: a rise is a slope and no stairs.
      const before = points.at(-1) ?? bottom;
      const falls = Math.abs(before - top) < Math.abs(before - bottom);
      if (Math.abs(bottom - top) < oneLine) points.push(px(0.5), (bottom + top) / 2);
      else points.push(px(0.25), falls ? top : bottom, px(0.75), falls ? bottom : top);
    }
    i = next;
  }
  finish();
  const [low, high] = [lows.at(-1), highs.at(-1)];
  if (typeof low === 'number' && typeof high === 'number')
    marks.push({
      kind: 'dot',
      x: x.at(0),
      y: y.at((low + high) / 2 - less),
      radius: 6,
      fill: 'pen',
      stroke: { ink: 'pen', width: 1 },
    });
  return marks;
}

/** Lowest and highest force of some buckets; undefined where one is missing: a gap stays a gap. */
function extremes({ low, high }: Trace, from: number, until: number): readonly [number, number] | undefined {
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = from; i < until; i++) {
    const [least, most] = [low[i], high[i]];
    if (typeof least !== 'number' || typeof most !== 'number') return undefined;
    lowest = Math.min(lowest, least);
    highest = Math.max(highest, most);
  }
  return [lowest, highest];
}
