import type { Figure } from '../model/figure.ts';
import type { Numbers } from '../text/numbers.ts';
import { ticksNeed } from './over-time.ts';
import { valueScale } from './scale.ts';
import { accent, circle, grid, ink, label, line, soft, svg } from './svg.ts';

export interface ForceVelocity {
  readonly points: readonly { readonly force: number; readonly velocity: number; readonly said: string }[];
  readonly line?: { readonly f0: number; readonly v0: number } | undefined;
  readonly caption: string;
  readonly alt: string;
}

const [width, height] = [300, 176];
const [left, right, top, bottom] = [42, width - 18, 14, height - 26];

/** Mean force over mean velocity: a point for each load, the line through them, in dashes where nothing was measured. */
export function forceVelocityFigure({ points, line: fit, caption, alt }: ForceVelocity, numbers: Numbers): Figure {
  const y = valueScale([0, ...points.map(({ force }) => force), ...(fit ? [fit.f0] : [])], bottom, top, 5);
  const x = valueScale([0, ...points.map(({ velocity }) => velocity), ...(fit ? [fit.v0] : [])], left, right, 5);
  const [yDecimals, xDecimals] = [ticksNeed(y.ticks), ticksNeed(x.ticks)];
  const velocities = points.map(({ velocity }) => velocity);
  const [slow, fast] = [Math.min(...velocities), Math.max(...velocities)];
  const forceAt = (velocity: number) => (fit ? fit.f0 * (1 - velocity / fit.v0) : 0);
  const piece = (from: number, to: number, dashed: boolean) =>
    line(x.at(from), y.at(forceAt(from)), x.at(to), y.at(forceAt(to)), {
      stroke: ink,
      'stroke-width': dashed ? 0.8 : 1.2,
      'stroke-dasharray': dashed ? '4 3' : undefined,
    });
  const content = [
    ...y.ticks.flatMap((tick) => [
      line(left, y.at(tick), right, y.at(tick), { stroke: grid, 'stroke-width': 0.4 }),
      label(left - 5, y.at(tick) + 2.8, numbers.fixed(tick, yDecimals), { 'text-anchor': 'end', fill: soft }),
    ]),
    ...x.ticks.map((tick) =>
      label(x.at(tick), bottom + 11, numbers.fixed(tick, xDecimals), { 'text-anchor': 'middle', fill: soft }),
    ),
    label(left - 5, 8, 'N', { 'text-anchor': 'end', fill: soft }),
    label(right, height - 4, 'm/s', { 'text-anchor': 'end', fill: soft }),
    line(left, bottom, right, bottom, { stroke: ink, 'stroke-width': 0.8 }),
    line(left, top, left, bottom, { stroke: ink, 'stroke-width': 0.8 }),
    ...(fit ? [piece(0, slow, true), piece(slow, fast, false), piece(fast, fit.v0, true)] : []),
    ...points.flatMap(({ force, velocity, said }, i) => [
      circle(x.at(velocity), y.at(force), 3.4, { fill: accent, stroke: accent, 'stroke-width': 1 }),
      // Points of neighbouring loads lie close: the first and the last are named, on either side of the line.
      ...(i === 0 ? [label(x.at(velocity) - 5, y.at(force) + 11, said, { 'text-anchor': 'end', 'font-size': 7 })] : []),
      ...(i > 0 && i === points.length - 1
        ? [label(x.at(velocity) + 5, y.at(force) - 6, said, { 'font-size': 7 })]
        : []),
    ]),
  ];
  return { id: 'force-velocity', caption, alt, width, height, svg: svg(width, height, alt, content) };
}
