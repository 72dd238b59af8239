import { type FollowedQuantity, followedQuantities, type PlateHistory } from '@sthene/core';
import type { Figure } from '../model/figure.ts';
import type { Dates } from '../text/dates.ts';
import type { Numbers } from '../text/numbers.ts';
import { ticksNeed } from './over-time.ts';
import { timeScale, valueScale } from './scale.ts';
import { circle, grid, ink, label, line, polyline, soft, svg } from './svg.ts';

const width = 520;
const [left, right] = [48, width - 14];
/** A strip for each quantity: its name above, the plot, and below the last one the dates. */
const strip = { name: 14, plot: 50, gap: 8 };
const dateLine = 20;
const height = followedQuantities.length * (strip.name + strip.plot + strip.gap) + dateLine;
/** More points than this stand close enough for smaller ones. */
const many = 12;

interface Said {
  readonly caption: string;
  readonly alt: string;
  readonly name: Readonly<Record<FollowedQuantity, string>>;
}

/** Gain, zero and noise of one plate over its checks, one strip below the other; the limits are dotted, the newest point is open. */
export function checkHistoryFigure(
  { plate, points, limits }: PlateHistory,
  said: Said,
  { numbers, dates }: { numbers: Numbers; dates: Dates },
): Figure {
  const x = timeScale(
    points.map(({ at }) => Date.parse(at)),
    left + 6,
    right - 6,
    dates,
  );
  const content = followedQuantities.flatMap((id, i) => {
    const top = i * (strip.name + strip.plot + strip.gap) + strip.name;
    const bottom = top + strip.plot;
    const own = points.flatMap((one) => {
      const value = one[id];
      return value === undefined ? [] : [{ at: Date.parse(one.at), value }];
    });
    const limit = limits[id];
    // Noise has no sign.
    const levels = limit === undefined ? [] : id === 'noise' ? [limit] : [limit, -limit];
    const y = valueScale([0, ...levels, ...own.map(({ value }) => value)], bottom, top, 4);
    const placed = own.map(({ at, value }) => [x.at(at), y.at(value)] as const);
    const r = points.length > many ? 1.6 : 2.4;
    return [
      label(left, top - 4, said.name[id]),
      ...y.ticks.flatMap((tick) => [
        line(left, y.at(tick), right, y.at(tick), { stroke: grid, 'stroke-width': 0.4 }),
        label(left - 5, y.at(tick) + 2.8, numbers.fixed(tick, ticksNeed(y.ticks)), {
          'text-anchor': 'end',
          fill: soft,
        }),
      ]),
      line(left, y.at(0), right, y.at(0), { stroke: soft, 'stroke-width': 0.6 }),
      ...levels.map((level) =>
        line(left, y.at(level), right, y.at(level), { stroke: ink, 'stroke-width': 0.9, 'stroke-dasharray': '1 2' }),
      ),
      polyline(placed, { stroke: ink, 'stroke-width': 1 }),
      ...placed.map(([cx, cy], at) =>
        at === placed.length - 1
          ? circle(cx, cy, r + 1, { fill: '#ffffff', stroke: ink, 'stroke-width': 1.2 })
          : circle(cx, cy, r, { fill: ink }),
      ),
    ];
  });
  const dated = x.ticks.flatMap(({ at, text }) => [
    line(x.at(at), height - dateLine - strip.gap, x.at(at), height - dateLine - strip.gap + 3, {
      stroke: soft,
      'stroke-width': 0.6,
    }),
    label(x.at(at), height - dateLine + 6, text, { 'text-anchor': 'middle', fill: soft }),
  ]);
  return {
    id: `history-${plate.replace(/[^A-Za-z0-9]+/g, '-').toLowerCase()}`,
    ...{ caption: said.caption, alt: said.alt, width, height },
    svg: svg(width, height, said.alt, [...content, ...dated]),
  };
}
