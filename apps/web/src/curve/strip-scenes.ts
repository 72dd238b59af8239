import { plotMargins } from './main-scene.ts';
import { type CurveModel, instantOf, wholeOf } from './model.ts';
import { linear } from './scale.ts';
import type { Mark, Scene } from './scene.ts';
import { pieces } from './series-marks.ts';
import type { View } from './view.ts';

/** The balance strip: right above the middle line, left below it, on the main plot's time axis. */
export function balanceScene(model: CurveModel, view: View, width: number, height: number): Scene {
  const { balance } = model;
  const left = plotMargins.left;
  const right = Math.max(left + 10, width - plotMargins.right);
  if (!balance) return { width, height, marks: [] };
  const x = linear([view.from, view.to], [left, right]);
  const y = linear([-balance.limit, balance.limit], [height - 4, 4]);
  const middle = y.at(0);
  const inner: Mark[] = [];
  for (const piece of pieces(
    { pyramid: balance.pyramid, rate: model.rate, start: model.start, breaks: balance.breaks },
    view,
    right - left,
  )) {
    if (piece.length < 4) continue;
    const px = (i: number) => x.at(instantOf(model, piece[i] as number));
    for (const side of [1, -1] as const) {
      const points: number[] = [px(0), middle];
      for (let i = 0; i < piece.length; i += 2)
        points.push(px(i), y.at(side * Math.max(0, side * (piece[i + 1] as number))));
      points.push(px(piece.length - 2), middle);
      inner.push({ kind: 'path', closed: true, points, fill: side > 0 ? 'right' : 'left', opacity: 0.55 });
    }
    const line = piece.map((value, i) => (i % 2 === 0 ? px(i) : y.at(value)));
    inner.push({ kind: 'path', points: line, stroke: { ink: 'ink', width: 1 } });
  }
  const label = (row: number, text: string, ink: 'left' | 'right'): Mark => ({
    kind: 'text',
    x: left - 8,
    y: row,
    text,
    anchor: 'end',
    ink,
    size: 12,
    weight: 650,
    face: 'sans',
  });
  const half = balance.limit / 2;
  return {
    width,
    height,
    marks: [
      { kind: 'rect', x: left, y: 4, width: right - left, height: height - 8, fill: 'paper' },
      {
        kind: 'lines',
        at: [half, -half, balance.limit, -balance.limit].flatMap((v) => [left, y.at(v), right, y.at(v)]),
        stroke: { ink: 'grid-strong', width: 1 },
      },
      { kind: 'clip', x: left, y: 4, width: right - left, height: height - 8, marks: inner },
      { kind: 'lines', at: [left, middle, right, middle], stroke: { ink: 'line-strong', width: 1 } },
      label(14, `R ${balance.limit}\u2009%`, 'right'),
      label(height - 6, `L ${balance.limit}\u2009%`, 'left'),
    ],
  };
}

/** The overview strip: the whole recording small, with the visible window as a frame that can be dragged. */
export function overviewScene(model: CurveModel, view: View, width: number, height: number): Scene {
  const marks = [...overviewGround(model, width, height).marks, ...overviewFrame(model, view, width, height).marks];
  return { width, height, marks };
}

const overviewAxis = (model: CurveModel, width: number) => {
  const left = plotMargins.left;
  const whole = wholeOf(model);
  return linear([whole.from, whole.to], [left, Math.max(left + 10, width - plotMargins.right)]);
};

/** The part of the overview that does not change while one pans and zooms. */
export function overviewGround(model: CurveModel, width: number, height: number): Scene {
  const total = model.series[0];
  if (!total) return { width, height, marks: [] };
  const x = overviewAxis(model, width);
  const [left, right] = x.range;
  const extent = total.pyramid.extent(0, total.pyramid.values.length);
  const y = linear([Math.min(0, extent.lo), Math.max(extent.hi, 1e-9)], [height - 5, 6]);
  const at = (sample: number) => x.at(instantOf(model, sample));
  const inner: Mark[] = pieces(total, wholeOf(model), right - left).map((piece) => ({
    kind: 'path',
    points: piece.map((value, i) => (i % 2 === 0 ? at(value) : y.at(value))),
    stroke: { ink: 'ink-soft', width: 1.2 },
  }));
  for (const gap of model.gaps.open)
    inner.push({
      kind: 'rect',
      x: at(gap.start),
      y: 2,
      width: Math.max(2, at(gap.end) - at(gap.start)),
      height: height - 4,
      fill: 'repeat',
      opacity: 0.5,
    });
  for (const line of model.evidence.verticals.filter((one) => one.priority >= 80))
    inner.push({ kind: 'lines', at: [at(line.at), 2, at(line.at), height - 2], stroke: { ink: line.ink, width: 1 } });
  const box = { x: left, y: 2, width: right - left, height: height - 4 };
  return {
    width,
    height,
    marks: [
      { kind: 'rect', ...box, stroke: { ink: 'line', width: 1 } },
      { kind: 'clip', ...box, marks: inner },
    ],
  };
}

/** The frame around the visible window, with a grip at each edge. */
export function overviewFrame(model: CurveModel, view: View, width: number, height: number): Scene {
  const x = overviewAxis(model, width);
  const whole = wholeOf(model);
  const from = x.at(Math.max(whole.from, view.from));
  const to = Math.max(from + 6, x.at(Math.min(whole.to, view.to)));
  const box = { x: from, y: 2, width: to - from, height: height - 4 };
  const [top, bottom] = [height / 2 - 9, height / 2 + 9];
  return {
    width,
    height,
    marks: [
      { kind: 'rect', ...box, fill: 'pen', opacity: 0.1 },
      { kind: 'rect', ...box, stroke: { ink: 'pen', width: 1.4 } },
      { kind: 'lines', at: [from, top, from, bottom, to, top, to, bottom], stroke: { ink: 'pen', width: 4 } },
    ],
  };
}
