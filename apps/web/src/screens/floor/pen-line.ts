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
    const [lowest, highest] = [least(lows, i, next), most(highs, i, next)];
    if (lowest === undefined || highest === undefined) finish();
    else {
      const px = (part: number) => x.at((trace.first + (i + part * (next - i)) * bucket - end) / rate);
      const [bottom, top] = [y.at(lowest - less), y.at(highest - less)];
      // The nearer one first, each in its half: a rise is a slope and no stairs.
      const falls = Math.abs((points.at(-1) ?? bottom) - top) < Math.abs((points.at(-1) ?? bottom) - bottom);
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

/** Smallest of some; undefined where one is missing: a gap stays a gap. */
function least(values: Trace['low'], from: number, until: number): number | undefined {
  let found = Number.POSITIVE_INFINITY;
  for (let i = from; i < until; i++) {
    const value = values[i];
    if (typeof value !== 'number') return undefined;
    if (value < found) found = value;
  }
  return found;
}

function most(values: Trace['high'], from: number, until: number): number | undefined {
  let found = Number.NEGATIVE_INFINITY;
  for (let i = from; i < until; i++) {
    const value = values[i];
    if (typeof value !== 'number') return undefined;
    if (value > found) found = value;
  }
  return found;
}
