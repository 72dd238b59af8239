import type { PlotBox } from '../../curve/grid.ts';
import type { Scale } from '../../curve/scale.ts';
import type { Mark } from '../../curve/scene.ts';
import { numberText } from '../../number/format.ts';
import { liveWords } from '../../words/live.ts';
import type { ForceView } from './numbers.ts';

interface Band {
  readonly low: number;
  readonly high: number;
}

/** A band of force across the paper with its name. */
export function bandMark(
  { low, high }: Band,
  { less }: ForceView,
  box: PlotBox,
  y: Scale,
  fill: 'band' | 'band-pen',
  words: string,
): Mark[] {
  const [top, bottom] = [y.at(high - less), y.at(low - less)];
  const { left, right } = box;
  return [
    { kind: 'rect', x: left, y: top, width: right - left, height: Math.max(2, bottom - top), fill },
    // Fill alone is pale: its edges say where it begins and ends.
    { kind: 'lines', at: [left, top, right, top], stroke: { ink: 'line-strong', width: 1 } },
    { kind: 'lines', at: [left, bottom, right, bottom], stroke: { ink: 'line-strong', width: 1 } },
    label(left + 8, top - 6, words, 'ink-soft'),
  ];
}

/** The athlete's own best as a line across the paper. */
export function bestMark(best: number, { less }: ForceView, box: PlotBox, y: Scale): Mark[] {
  const at = y.at(best - less);
  return [
    { kind: 'lines', at: [box.left, at, box.right, at], stroke: { ink: 'pen', width: 2, dash: [10, 6] } },
    label(box.left + 8, at - 7, liveWords.best(numberText(best - less, 0)), 'pen'),
  ];
}

const label = (x: number, y: number, text: string, ink: 'pen' | 'ink-soft'): Mark => ({
  kind: 'text',
  x,
  y,
  text,
  anchor: 'start',
  ink,
  size: 14,
  weight: 600,
  face: 'sans',
  halo: true,
});
