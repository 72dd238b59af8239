import type { Scale } from '../../curve/scale.ts';
import type { Mark } from '../../curve/scene.ts';

/** Lowest and highest force of what falls into a column, N, and where the column begins and ends, s. */
export interface Column {
  readonly from: number;
  readonly until: number;
  readonly low: number;
  readonly high: number;
}

/** Extremes that lie closer than this, in pixels, are drawn as one point: the line is thicker. */
const oneLine = 1;

/**
 * A line through the extremes of each column, so that no peak vanishes between two. It is painted up to fifty times a second: a point that
 * cannot be seen is left out. An undefined column is a gap, and the line is broken there.
 *
 * @param less force taken off before it is drawn, N
 */
export function extremeLine(columns: Iterable<Column | undefined>, less: number, x: Scale, y: Scale): Mark[] {
  const marks: Mark[] = [];
  let points: number[] = [];
  const finish = () => {
    if (points.length >= 4) marks.push({ kind: 'path', points, stroke: { ink: 'ink', width: 2.4 } });
    points = [];
  };
  for (const column of columns) {
    if (column === undefined) {
      finish();
      continue;
    }
    const { from, until, low, high } = column;
    const px = (part: number) => x.at(from + part * (until - from));
    const [bottom, top] = [y.at(low - less), y.at(high - less)];
    // The nearer one first, each in its half: a rise is a slope and no stairs.
    const before = points.at(-1) ?? bottom;
    const falls = Math.abs(before - top) < Math.abs(before - bottom);
    if (Math.abs(bottom - top) < oneLine) points.push(px(0.5), (bottom + top) / 2);
    else points.push(px(0.25), falls ? top : bottom, px(0.75), falls ? bottom : top);
  }
  finish();
  return marks;
}
