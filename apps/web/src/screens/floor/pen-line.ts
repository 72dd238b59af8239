import type { Scale } from '../../curve/scale.ts';
import type { Mark } from '../../curve/scene.ts';
import { endOf, type Trace } from '../../live/index.ts';
import { traceColumns } from './columns.ts';
import { extremeLine } from './extreme-line.ts';
import type { ForceView } from './numbers.ts';

/**
 * The total of the last seconds as a line that ends under the pen, and the pen's point.
 *
 * @param seconds shown
 */
export function penLine(trace: Trace, { less }: Pick<ForceView, 'less'>, x: Scale, y: Scale, seconds: number): Mark[] {
  const { bucket, rate, low: lows, high: highs } = trace;
  const from = Math.max(0, lows.length - Math.ceil((seconds * rate) / bucket));
  const columns = traceColumns(trace, endOf(trace), x.at(1) - x.at(0), from);
  const marks = extremeLine(columns, less, x, y);
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
