import type { Figure } from '../model/figure.ts';
import { accent, circle, grid, ink, label, line, rect, soft, svg } from './svg.ts';

export interface RatioLane {
  readonly name: string;
  readonly value: number;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly limits: readonly number[];
  /** As it is printed. */
  readonly said: string;
  readonly limitText: (limit: number) => string;
}

const width = 520;
const [left, right, top, row] = [150, width - 84, 4, 34];

/** Each ratio on a line of its own: the value as a dot, its interval as a bar, the limits as lines of dashes. */
export function ratioLanes(
  lanes: readonly RatioLane[],
  { caption, alt }: { readonly caption: string; readonly alt: string },
): Figure {
  const height = top + row * lanes.length + 4;
  const content = lanes.flatMap((lane, i) => {
    const middle = top + row * i + 13;
    const shown = [lane.value, lane.low ?? lane.value, lane.high ?? lane.value, ...lane.limits];
    const [low, high] = [Math.min(...shown), Math.max(...shown)];
    const room = 0.12 * (high - low || Math.abs(high) || 1);
    const x = (value: number) => left + ((value - low + room) / (high - low + 2 * room)) * (right - left);
    return [
      label(left - 12, middle + 3, lane.name, { 'text-anchor': 'end' }),
      line(left, middle, right, middle, { stroke: grid, 'stroke-width': 0.8 }),
      ...lane.limits.flatMap((limit) => [
        line(x(limit), middle - 9, x(limit), middle + 9, {
          stroke: soft,
          'stroke-width': 1,
          'stroke-dasharray': '3 2',
        }),
        label(x(limit), middle + 18, lane.limitText(limit), { 'text-anchor': 'middle', fill: soft, 'font-size': 7 }),
      ]),
      ...(lane.low === undefined || lane.high === undefined
        ? []
        : [
            rect(x(lane.low), middle - 3.5, x(lane.high) - x(lane.low), 7, {
              fill: '#cfcfcf',
              stroke: soft,
              'stroke-width': 0.5,
            }),
          ]),
      circle(x(lane.value), middle, 4, { fill: accent, stroke: accent, 'stroke-width': 1 }),
      label(right + 10, middle + 3, lane.said, { 'font-weight': 'bold', fill: ink }),
    ];
  });
  return { id: 'ratios', caption, alt, width, height, svg: svg(width, height, alt, content) };
}
