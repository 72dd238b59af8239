import { decimalsOf, multiples, partsOf, type Scale, stepAtLeast } from './scale.ts';
import type { Mark, Measure } from './scene.ts';

/** The plot's rectangle inside a scene. */
export interface PlotBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const minus = (text: string) => text.replace('-', '\u2212');

/** Writes a tick: as many decimals as its step needs, no grouping, a true minus. */
export const tickText = (value: number, step: number) => minus(value.toFixed(decimalsOf(step)));

/** The paper: fine and strong lines on 1-2-5 steps, with numbers and axis titles. */
export function paperGrid(
  box: PlotBox,
  x: Scale,
  y: Scale,
  titles: { x: string; y: string },
  measure: Measure,
): Mark[] {
  const xStep = stepAtLeast(((x.domain[1] - x.domain[0]) * 86) / Math.max(1, box.right - box.left));
  const yStep = stepAtLeast(((y.domain[1] - y.domain[0]) * 52) / Math.max(1, box.bottom - box.top));
  const marks: Mark[] = [];
  const fine: number[] = [];
  const strong: number[] = [];
  for (const t of multiples(x.domain[0], x.domain[1], fineStep(xStep, x)))
    fine.push(x.at(t), box.top, x.at(t), box.bottom);
  for (const v of multiples(y.domain[0], y.domain[1], fineStep(yStep, y)))
    fine.push(box.left, y.at(v), box.right, y.at(v));
  const xTicks = multiples(x.domain[0], x.domain[1], xStep);
  const yTicks = multiples(y.domain[0], y.domain[1], yStep);
  for (const t of xTicks) strong.push(x.at(t), box.top, x.at(t), box.bottom);
  for (const v of yTicks) strong.push(box.left, y.at(v), box.right, y.at(v));
  marks.push({ kind: 'lines', at: fine, stroke: { ink: 'grid', width: 1 } });
  marks.push({ kind: 'lines', at: strong, stroke: { ink: 'grid-strong', width: 1 } });
  if (y.domain[0] < 0)
    marks.push({
      kind: 'lines',
      at: [box.left, y.at(0), box.right, y.at(0)],
      stroke: { ink: 'line-strong', width: 1 },
    });
  for (const v of yTicks) marks.push(text(box.left - 8, y.at(v) + 4, tickText(v, yStep), 'end'));
  const titleStart = box.right - measure(titles.x, 12, 400, 'sans') - 10;
  for (const t of xTicks) {
    const label = tickText(t, xStep);
    const half = measure(label, 12, 400, 'mono') / 2;
    if (x.at(t) + half <= titleStart && x.at(t) - half >= box.left - 20)
      marks.push(text(x.at(t), box.bottom + 17, label, 'middle'));
  }
  marks.push(text(box.right, box.bottom + 17, titles.x, 'end', 'sans'));
  marks.push(text(Math.max(2, box.left - 48), box.top - 14, titles.y, 'start', 'sans'));
  return marks;
}

/** The fine step: the strong one cut as finely as stays at least 5 pixels apart. */
function fineStep(step: number, scale: Scale): number {
  const pixels = Math.abs(scale.at(step) - scale.at(0));
  const parts = partsOf(step);
  if (pixels / parts >= 5) return step / parts;
  return parts === 10 && pixels / 5 >= 5 ? step / 5 : step;
}

function text(
  x: number,
  y: number,
  words: string,
  anchor: 'start' | 'middle' | 'end',
  face: 'sans' | 'mono' = 'mono',
): Mark {
  return { kind: 'text', x, y, text: words, anchor, ink: 'ink-soft', size: 12, weight: 400, face };
}
