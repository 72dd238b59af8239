import type { Figure } from '../model/figure.ts';
import { type Numbers, unitText } from '../text/numbers.ts';
import { ticksNeed } from './over-time.ts';
import { valueScale } from './scale.ts';
import { accent, circle, grid, ink, label, line, rect, soft, svg } from './svg.ts';

export interface SquadLine {
  readonly name: string;
  readonly value: number;
  /** Where the value is expected when nothing has changed, about the value before. */
  readonly before?: { readonly value: number; readonly low: number; readonly high: number } | undefined;
  /** A sure word. */
  readonly sure: boolean;
}

export interface SquadLines {
  readonly lines: readonly SquadLine[];
  readonly unit: string;
  readonly caption: string;
  readonly alt: string;
}

const width = 520;
const [left, right, top, row] = [132, width - 14, 6, 15];

/** Each athlete's newest value as a dot over the band of no change since the session before. */
export function squadFigure({ lines, unit, caption, alt }: SquadLines, numbers: Numbers): Figure {
  const bottom = top + row * lines.length + 4;
  const height = bottom + 22;
  const all = lines.flatMap(({ value, before }) => [value, ...(before ? [before.low, before.high] : [])]);
  const x = valueScale(all, left, right, 6);
  const decimals = ticksNeed(x.ticks);
  const content = [
    ...x.ticks.flatMap((tick, i) => [
      line(x.at(tick), top, x.at(tick), bottom, { stroke: grid, 'stroke-width': 0.5 }),
      label(
        x.at(tick),
        bottom + 11,
        numbers.fixed(tick, decimals) + (i === x.ticks.length - 1 && unitText(unit) !== '' ? ` ${unitText(unit)}` : ''),
        { 'text-anchor': 'middle', fill: soft },
      ),
    ]),
    line(left, bottom, right, bottom, { stroke: ink, 'stroke-width': 0.8 }),
    ...lines.flatMap(({ name, value, before, sure }, i) => {
      const y = top + row * (i + 0.5) + 2;
      return [
        label(left - 8, y + 2.8, shortened(name), { 'text-anchor': 'end', 'font-weight': sure ? 'bold' : undefined }),
        ...(before
          ? [
              rect(x.at(before.low), y - 3, x.at(before.high) - x.at(before.low), 6, {
                fill: '#cfcfcf',
                stroke: soft,
                'stroke-width': 0.5,
              }),
              line(x.at(before.value), y - 5, x.at(before.value), y + 5, { stroke: ink, 'stroke-width': 1.1 }),
            ]
          : []),
        circle(x.at(value), y, sure ? 4 : 3.2, {
          fill: before ? (sure ? accent : ink) : '#ffffff',
          stroke: sure ? accent : ink,
          'stroke-width': 1.1,
        }),
      ];
    }),
  ];
  return { id: 'squad', caption, alt, width, height, svg: svg(width, height, alt, content) };
}

const shortened = (name: string): string => (name.length > 24 ? `${name.slice(0, 23)}…` : name);
