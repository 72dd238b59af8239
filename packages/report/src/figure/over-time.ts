import type { Figure } from '../model/figure.ts';
import type { Dates } from '../text/dates.ts';
import { type Numbers, unitText } from '../text/numbers.ts';
import { timeScale, valueScale } from './scale.ts';
import { accent, band, circle, grid, ink, label, line, polyline, rect, soft, svg } from './svg.ts';

export interface OverTime {
  readonly points: readonly {
    readonly at: string;
    readonly value: number;
    readonly first: boolean;
    readonly best: boolean;
  }[];
  readonly unit: string;
  /** Level that the newest value is held against, with the band of no change. */
  readonly reference?: { readonly value: number; readonly low: number; readonly high: number } | undefined;
  readonly newest: string;
  readonly best: string;
  readonly caption: string;
  readonly alt: string;
}

const [width, height] = [520, 196];
const [left, right, top, bottom] = [48, width - 14, 16, height - 20];

/** A value over time: points, the level before as a line of dashes, the noise band about it. Told apart by form, not by colour. */
export function overTimeFigure(shown: OverTime, { numbers, dates }: { numbers: Numbers; dates: Dates }): Figure {
  const { points, reference, unit } = shown;
  const levels = reference ? [reference.low, reference.high] : [];
  const y = valueScale([...points.map(({ value }) => value), ...levels], bottom, top + 8, 7);
  const x = timeScale(
    points.map(({ at }) => Date.parse(at)),
    left + 4,
    right - 4,
    dates,
  );
  const placed = points.map((one) => ({ ...one, x: x.at(Date.parse(one.at)), y: y.at(one.value) }));
  const decimals = ticksNeed(y.ticks);
  const content = [
    ...(reference
      ? [
          rect(left, y.at(reference.high), right - left, y.at(reference.low) - y.at(reference.high), { fill: band }),
          ...[reference.low, reference.high].map((level) =>
            line(left, y.at(level), right, y.at(level), {
              stroke: soft,
              'stroke-width': 0.5,
              'stroke-dasharray': '1 2',
            }),
          ),
          line(left, y.at(reference.value), right, y.at(reference.value), {
            stroke: ink,
            'stroke-width': 0.9,
            'stroke-dasharray': '6 3',
          }),
        ]
      : []),
    ...y.ticks.flatMap((tick) => [
      line(left, y.at(tick), right, y.at(tick), { stroke: grid, 'stroke-width': 0.4 }),
      label(left - 5, y.at(tick) + 2.8, numbers.fixed(tick, decimals), { 'text-anchor': 'end', fill: soft }),
    ]),
    label(left - 5, 9, unitText(unit), { 'text-anchor': 'end', fill: soft }),
    ...x.ticks.flatMap(({ at, text }) => [
      line(x.at(at), bottom, x.at(at), bottom + 3, { stroke: soft, 'stroke-width': 0.6 }),
      label(x.at(at), height - 8, text, { 'text-anchor': 'middle', fill: soft }),
    ]),
    line(left, bottom, right, bottom, { stroke: ink, 'stroke-width': 0.8 }),
    line(left, top, left, bottom, { stroke: ink, 'stroke-width': 0.8 }),
    polyline(
      placed.map((one) => [one.x, one.y] as const),
      { stroke: ink, 'stroke-width': 0.9 },
    ),
    ...placed.map((one, i) => {
      const newest = i === placed.length - 1;
      return circle(one.x, one.y, newest ? 4.6 : 3, {
        fill: one.first ? '#ffffff' : newest ? accent : ink,
        stroke: newest ? accent : ink,
        'stroke-width': 1.1,
      });
    }),
    ...placed.flatMap((one, i) => {
      const newest = i === placed.length - 1;
      const said = [...(newest ? [shown.newest] : []), ...(one.best ? [shown.best] : [])].join(', ');
      if (said === '') return [];
      const anchor = one.x > right - 40 ? 'end' : one.x < left + 40 ? 'start' : 'middle';
      const above = one.y > top + 16;
      const y = above ? one.y - 8 : one.y + 15;
      // Lines may run behind the word; paper beneath it keeps it legible. No sign of the font is wider.
      const wide = said.length * 4.4;
      const from = anchor === 'end' ? one.x - wide : anchor === 'start' ? one.x : one.x - wide / 2;
      return [
        rect(from - 2, y - 7.5, wide + 4, 10, { fill: '#ffffff', 'fill-opacity': 0.85 }),
        label(one.x, y, said, { 'text-anchor': anchor, 'font-weight': newest ? 'bold' : undefined }),
      ];
    }),
  ];
  return {
    id: 'over-time',
    caption: shown.caption,
    alt: shown.alt,
    width,
    height,
    svg: svg(width, height, shown.alt, content),
  };
}

/** Decimals that tell neighbouring ticks apart. */
export function ticksNeed(ticks: readonly number[]): number {
  const step = Math.abs((ticks[1] ?? 1) - (ticks[0] ?? 0)) || 1;
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}
