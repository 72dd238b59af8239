import { type RigCheckDocument, type RigCheckResult, smallLoad } from '@sthene/core';
import type { Figure } from '../model/figure.ts';
import type { Numbers } from '../text/numbers.ts';
import { ticksNeed } from './over-time.ts';
import { valueScale } from './scale.ts';
import { circle, grid, ink, label, line, polyline, soft, svg } from './svg.ts';

const [width, height] = [520, 150];
const [left, right, top, bottom] = [48, width - 14, 14, height - 22];

/** Readings of one plate less the true force by load: up solid, down dashed, the limits dotted. */
export function loadErrorsFigure(
  plate: RigCheckResult['plates'][number],
  limits: RigCheckDocument['limits'],
  said: { readonly caption: string; readonly alt: string },
  numbers: Numbers,
): Figure {
  const limit = (id: string) => limits.find((one) => one.id === id)?.value ?? 0;
  const allowed = (load: number) =>
    load <= smallLoad ? limit('small-load-error') : (limit('relative-error') / 100) * load;
  const points = (of: 'up' | 'down') =>
    plate.loads.flatMap((one) => {
      const reading = one[of];
      return reading === undefined ? [] : [{ load: one.load, error: reading - one.load }];
    });
  const most = plate.largestLoad;
  const ends = [0, smallLoad, smallLoad + 0.01, most].filter((load) => load <= most);
  const errors = [...points('up'), ...points('down')].map(({ error }) => error);
  const y = valueScale([...errors, allowed(most), -allowed(most)], bottom, top);
  const x = valueScale([0, most], left + 4, right - 4, 6);
  const place = (list: readonly { load: number; error: number }[]) =>
    list.map(({ load, error }) => [x.at(load), y.at(error)] as const);
  const limitLine = (sign: 1 | -1) =>
    polyline(place(ends.map((load) => ({ load, error: sign * allowed(load) }))), {
      stroke: soft,
      'stroke-width': 0.9,
      'stroke-dasharray': '1 2',
    });
  const content = [
    ...y.ticks.flatMap((tick) => [
      line(left, y.at(tick), right, y.at(tick), { stroke: grid, 'stroke-width': 0.4 }),
      label(left - 5, y.at(tick) + 2.8, numbers.fixed(tick, ticksNeed(y.ticks)), { 'text-anchor': 'end', fill: soft }),
    ]),
    label(left - 5, 8, 'N', { 'text-anchor': 'end', fill: soft }),
    ...x.ticks.map((tick) =>
      label(x.at(tick), height - 8, `${numbers.fixed(tick, 0)}\u00a0N`, { 'text-anchor': 'middle', fill: soft }),
    ),
    line(left, y.at(0), right, y.at(0), { stroke: ink, 'stroke-width': 0.8 }),
    limitLine(1),
    limitLine(-1),
    polyline(place(points('up')), { stroke: ink, 'stroke-width': 1.1 }),
    polyline(place(points('down')), { stroke: ink, 'stroke-width': 1.1, 'stroke-dasharray': '5 3' }),
    ...place(points('up')).map(([cx, cy]) => circle(cx, cy, 2.2, { fill: ink })),
  ];
  return {
    id: `errors-${plate.plate.replace(/[^A-Za-z0-9]+/g, '-').toLowerCase()}`,
    ...said,
    width,
    height,
    svg: svg(width, height, said.alt, content),
  };
}
