import { evidenceMarks } from './evidence-marks.ts';
import { type PlotBox, paperGrid } from './grid.ts';
import { type Box, type LabelWish, placeLabels } from './labels.ts';
import { type CurveModel, instantOf, type Series, sampleOf } from './model.ts';
import { linear, type Scale, stepAtLeast } from './scale.ts';
import type { Mark, Measure, Scene } from './scene.ts';
import { seriesMarks } from './series-marks.ts';
import type { View } from './view.ts';

/** What a person has put on the curve; markers and draft are samples. */
export interface Overlay {
  readonly cursor?: number;
  readonly a?: number;
  readonly b?: number;
  /** The onset line while it is being moved. */
  readonly draft?: number;
}

export interface MainSceneInput {
  readonly model: CurveModel;
  readonly view: View;
  readonly width: number;
  readonly height: number;
  /** `whole`: the force axis fits the recording and never jumps; `window`: it fits what is visible. */
  readonly forceFit: 'whole' | 'window';
  readonly overlay: Overlay;
  readonly measure: Measure;
  /** Multiplies line widths (high contrast, print). */
  readonly weight?: number;
}

export interface MainScene {
  readonly scene: Scene;
  readonly box: PlotBox;
  readonly x: Scale;
  readonly y: Scale;
}

export const plotMargins = { left: 56, right: 14, top: 30, bottom: 24 } as const;

/** The plot's rectangle for a size. */
export function plotBox(width: number, height: number): PlotBox {
  const { left, right, top, bottom } = plotMargins;
  return { left, top, right: Math.max(left + 10, width - right), bottom: Math.max(top + 10, height - bottom) };
}

/** Builds the main curve: paper, evidence, lines, labels. The same scene goes to the screen and into an export. */
export function mainScene(input: MainSceneInput): MainScene {
  const { model, view, measure } = input;
  const weight = input.weight ?? 1;
  const box = plotBox(input.width, input.height);
  const x = linear([view.from, view.to], [box.left, box.right]);
  const y = linear(forceDomain(model, view, input.forceFit, box.bottom - box.top), [box.bottom, box.top]);
  const evidence = evidenceMarks(model, box, x, y, weight);
  const overlay = overlayMarks(input, box, x, y, weight);
  // Drawn from last to first, so that the total lies on top.
  const lines = [...model.series].reverse().flatMap((series) => seriesMarks(series, view, box, x, y, weight));
  const wishes = [...evidence.wishes, ...overlay.wishes, ...letters(model, view, box, x, y)];
  const marks: Mark[] = [
    { kind: 'rect', x: box.left, y: box.top, width: box.right - box.left, height: box.bottom - box.top, fill: 'paper' },
    {
      kind: 'clip',
      x: box.left,
      y: box.top,
      width: box.right - box.left,
      height: box.bottom - box.top,
      marks: evidence.under,
    },
    ...paperGrid(box, x, y, { x: model.timeTitle, y: model.forceTitle }, measure),
    {
      kind: 'clip',
      x: box.left,
      y: box.top - 2,
      width: box.right - box.left,
      height: box.bottom - box.top + 2,
      marks: [...lines, ...evidence.over, ...overlay.marks],
    },
    ...placeLabels(wishes, box, measure, curveBoxes(model, view, box, x, y)),
  ];
  return { scene: { width: input.width, height: input.height, marks }, box, x, y };
}

/**
 * The force axis. `whole`: from zero (or below, where forces lie below it by more than noise) to a round number above the
 * largest drawn force, so it never jumps while one moves. `window`: just what is visible, with air on both sides.
 */
export function forceDomain(model: CurveModel, view: View, fit: 'whole' | 'window', pixels: number): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const series of model.series) {
    const from = fit === 'whole' ? 0 : Math.floor((view.from - series.start) * series.rate);
    const to = fit === 'whole' ? series.pyramid.values.length : Math.ceil((view.to - series.start) * series.rate) + 1;
    const extent = series.pyramid.extent(from, to);
    low = Math.min(low, extent.lo);
    high = Math.max(high, extent.hi);
  }
  if (!(high >= low)) return [0, 1];
  if (fit === 'whole') {
    high = Math.max(high, 0);
    low = low >= 0 || -low < high * 0.02 ? 0 : low;
  }
  const span = high > low ? high - low : Math.max(1, Math.abs(high));
  const step = stepAtLeast((span * 14) / Math.max(1, pixels));
  const air = span * 0.09;
  const bottom = low === 0 ? 0 : Math.floor((low - air) / step) * step;
  return [bottom, Math.ceil((high + air) / step) * step];
}

/** Stretches of the total line as obstacles, so that no label covers the curve it speaks of. */
function curveBoxes(model: CurveModel, view: View, box: PlotBox, x: Scale, y: Scale): Box[] {
  const total = model.series[0];
  if (!total) return [];
  const boxes: Box[] = [];
  const wide = 10;
  for (let left = box.left; left < box.right; left += wide) {
    const from = Math.floor((x.from(left) - total.start) * total.rate);
    const to = Math.ceil((x.from(left + wide) - total.start) * total.rate) + 1;
    const { lo, hi } = total.pyramid.extent(from, to);
    if (lo <= hi && view.to > view.from)
      boxes.push({ left, right: left + wide, top: y.at(hi) - 1, bottom: y.at(lo) + 1 });
  }
  return boxes;
}

/**
 * Letters at the line ends (L, R, other trials): near the right edge or where the line ends, above or below the line, but
 * only on a side where no other line runs close by: a letter must never seem to belong to its neighbour.
 */
function letters(model: CurveModel, view: View, box: PlotBox, x: Scale, y: Scale): LabelWish[] {
  const rowAt = (series: Series, instant: number) => {
    const value = series.pyramid.values[Math.round((instant - series.start) * series.rate)];
    return value === undefined ? undefined : y.at(value);
  };
  return model.series.slice(1).map((series) => {
    const end = series.start + (series.pyramid.values.length - 1) / series.rate;
    const spots = [18, 40, 70, 110, 160, 230, 320, 420].flatMap((back) => {
      const instant = Math.min(view.to, end) - (x.from(box.left + back) - x.from(box.left));
      const row = rowAt(series, instant);
      if (row === undefined) return [];
      const others = model.series.flatMap((other) => (other === series ? [] : [rowAt(other, instant) ?? Number.NaN]));
      const free = (side: -1 | 1) => others.every((other) => !(side * (other - row) >= 0 && side * (other - row) < 26));
      return ([-1, 1] as const)
        .filter(free)
        .map((side) => ({ x: x.at(instant), y: row + side * 11, anchor: 'middle' as const }));
    });
    return { text: series.letter, ink: series.ink, weight: 700, size: 13, priority: 70, spots };
  });
}

function overlayMarks(input: MainSceneInput, box: PlotBox, x: Scale, y: Scale, weight: number) {
  const { model, overlay } = input;
  const marks: Mark[] = [];
  const wishes: LabelWish[] = [];
  const px = (sample: number) => x.at(instantOf(model, sample));
  if (overlay.cursor !== undefined) {
    const at = px(overlay.cursor);
    marks.push({ kind: 'lines', at: [at, box.top, at, box.bottom], stroke: { ink: 'ink-soft', width: 1 } });
    for (const series of model.series) {
      const sample = Math.round((instantOf(model, overlay.cursor) - series.start) * series.rate);
      const value = series.pyramid.values[sample];
      if (value === undefined || series.breaks.some((gap) => sample >= gap.start && sample < gap.end)) continue;
      marks.push({
        kind: 'dot',
        x: at,
        y: y.at(value),
        radius: 2.6,
        fill: series.ink,
        stroke: { ink: 'paper', width: 1 },
      });
    }
  }
  for (const name of ['a', 'b'] as const) {
    const sample = overlay[name];
    if (sample === undefined) continue;
    const at = px(sample);
    marks.push({
      kind: 'lines',
      at: [at, box.top, at, box.bottom],
      stroke: { ink: 'focus', width: 1.4 * weight, dash: name === 'a' ? [8, 3] : [3, 3] },
    });
    const spots = [box.bottom - 12, box.bottom - 30].flatMap((row) => [
      { x: at + 5, y: row, anchor: 'start' as const },
      { x: at - 5, y: row, anchor: 'end' as const },
    ]);
    wishes.push({ text: name.toUpperCase(), ink: 'focus', weight: 700, size: 14, priority: 97, must: true, spots });
  }
  if (overlay.draft !== undefined) {
    const at = px(overlay.draft);
    const total = model.series[0]?.pyramid.values[Math.round(overlay.draft)];
    marks.push({ kind: 'lines', at: [at, box.top, at, box.bottom], stroke: { ink: 'pen', width: 2.4 * weight } });
    marks.push({
      kind: 'path',
      closed: true,
      fill: 'pen',
      points: [at - 9, box.bottom, at + 9, box.bottom, at, box.bottom - 14],
    });
    if (total !== undefined)
      marks.push({
        kind: 'dot',
        x: at,
        y: y.at(total),
        radius: 4.5,
        fill: 'paper',
        stroke: { ink: 'pen', width: 2.2 * weight },
      });
  }
  return { marks, wishes };
}

/** Sample under a pixel of the main plot. */
export const sampleAt = (model: CurveModel, x: Scale, pixel: number): number => sampleOf(model, x.from(pixel));
