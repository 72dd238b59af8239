import type { PlotBox } from './grid.ts';
import type { LabelWish, Spot } from './labels.ts';
import { type CurveModel, instantOf } from './model.ts';
import type { Scale } from './scale.ts';
import type { Mark } from './scene.ts';

/** What lies under the lines (bands, gaps), what lies over them, and the labels that still need a place. */
export interface EvidenceMarks {
  readonly under: Mark[];
  readonly over: Mark[];
  readonly wishes: LabelWish[];
}

/** Evidence in pixels. Only what the view touches is kept. */
export function evidenceMarks(model: CurveModel, box: PlotBox, x: Scale, y: Scale, weight: number): EvidenceMarks {
  const marks: EvidenceMarks = { under: [], over: [], wishes: [] };
  const px = (sample: number) => x.at(instantOf(model, sample));
  const visible = (from: number, to: number) => to >= box.left && from <= box.right;
  for (const band of model.evidence.bands) {
    const from = Math.max(box.left, px(band.start));
    const to = Math.min(box.right, px(band.end));
    if (to < from || !visible(px(band.start), px(band.end))) continue;
    const width = Math.max(1, to - from);
    marks.under.push({
      kind: 'rect',
      x: from,
      y: box.top,
      width,
      height: box.bottom - box.top,
      fill: band.ink,
      opacity: 0.75,
    });
    if (band.label) marks.wishes.push(bandLabel(band.label, band.labelInk ?? 'ink-soft', from, to, box));
  }
  for (const gap of model.gaps.open) {
    if (!visible(px(gap.start), px(gap.end))) continue;
    const from = px(gap.start - 1);
    const to = px(gap.end);
    marks.under.push(...hatch(Math.max(box.left, from), Math.min(box.right, to), box));
    const words = model.gapWords((1000 * (gap.end - gap.start)) / model.rate);
    const middle = (Math.max(box.left, from) + Math.min(box.right, to)) / 2;
    const rows = [0.5, 0.4, 0.6, 0.3].map((share) => box.top + (box.bottom - box.top) * share);
    const spots = rows.flatMap((row): Spot[] => [
      { x: to + 6, y: row, anchor: 'start' },
      { x: from - 6, y: row, anchor: 'end' },
      { x: middle, y: row, anchor: 'middle' },
    ]);
    marks.wishes.push({ text: words, ink: 'repeat', weight: 600, priority: 95, must: true, spots });
  }
  for (const gap of model.gaps.filled)
    if (visible(px(gap.start), px(gap.end)))
      marks.over.push({
        kind: 'lines',
        at: [px(gap.start), box.bottom - 7, px(gap.start), box.bottom],
        stroke: { ink: 'look', width: 2 },
      });
  for (const level of model.evidence.levels) {
    const from = px(level.start);
    const to = px(level.end);
    if (!visible(from, to)) continue;
    const row = y.at(level.force);
    marks.over.push({ kind: 'lines', at: [from, row, to, row], stroke: { ink: level.ink, width: 1, dash: [5, 3] } });
    if (level.label)
      marks.wishes.push({
        text: level.label,
        ink: level.ink,
        priority: 30,
        spots: [
          { x: from + 2, y: row - 9, anchor: 'start' },
          { x: from - 5, y: row, anchor: 'end' },
          { x: from + 2, y: row + 11, anchor: 'start' },
        ],
      });
  }
  for (const line of model.evidence.verticals) {
    const at = px(line.at);
    if (!visible(at, at)) continue;
    const stroke = { ink: line.ink, width: (line.width ?? 1) * weight, ...(line.dash ? { dash: line.dash } : {}) };
    marks.over.push({ kind: 'lines', at: [at, box.top, at, box.bottom], stroke });
    const bold = line.priority >= 90;
    marks.wishes.push({
      text: line.label,
      ink: line.ink,
      weight: bold ? 650 : 400,
      priority: line.priority,
      must: bold,
      spots: [...lanes(at, box, line.side ?? 'left'), ...(bold ? withinEdge(at, box) : [])],
    });
  }
  for (const point of model.evidence.points) {
    const at = px(point.at);
    if (!visible(at, at)) continue;
    const row = y.at(point.force);
    marks.over.push({
      kind: 'dot',
      x: at,
      y: row,
      radius: point.radius ?? 3.6,
      fill: 'panel',
      stroke: { ink: point.ink, width: 1.6 * weight },
    });
    if (point.label)
      marks.wishes.push(pointLabel(point.label, point.ink, point.priority ?? 40, at, row, point.place ?? 'right'));
  }
  return marks;
}

function bandLabel(text: string, ink: LabelWish['ink'], from: number, to: number, box: PlotBox): LabelWish {
  const spots = [0, 1, 2, 3].flatMap((lane): Spot[] => [
    { x: from + 4, y: box.top + 11 + lane * 17, anchor: 'start' },
    { x: to - 4, y: box.top + 11 + lane * 17, anchor: 'end' },
  ]);
  return { text, ink, priority: 60, spots };
}

/** Rows under the top edge beside a vertical line, the wanted side first. */
function lanes(at: number, box: PlotBox, side: 'left' | 'right'): Spot[] {
  return [0, 1, 2, 3].flatMap((lane): Spot[] => {
    const y = box.top + 11 + lane * 17;
    const left: Spot = { x: at - 6, y, anchor: 'end' };
    const right: Spot = { x: at + 6, y, anchor: 'start' };
    return side === 'left' ? [left, right] : [right, left];
  });
}

/** Where a long label finds no room beside its line, it crosses it, and stays whole. */
function withinEdge(at: number, box: PlotBox): Spot[] {
  const nearLeft = at < (box.left + box.right) / 2;
  return [0, 1, 2, 3].map((lane): Spot => {
    const y = box.top + 11 + lane * 17;
    return nearLeft ? { x: box.left + 4, y, anchor: 'start' } : { x: box.right - 4, y, anchor: 'end' };
  });
}

function pointLabel(
  text: string,
  ink: LabelWish['ink'],
  priority: number,
  x: number,
  y: number,
  place: 'above' | 'right',
): LabelWish {
  const above: Spot[] = [
    { x, y: y - 15, anchor: 'middle' },
    { x: x + 6, y: y - 15, anchor: 'start' },
    { x: x - 6, y: y - 15, anchor: 'end' },
    { x, y: y + 16, anchor: 'middle' },
  ];
  const beside: Spot[] = [
    { x: x + 9, y: y + 2, anchor: 'start' },
    { x: x - 9, y: y - 2, anchor: 'end' },
  ];
  return {
    text,
    ink,
    priority,
    weight: place === 'above' ? 650 : 400,
    spots: place === 'above' ? [...above, ...beside] : [...beside, ...above],
  };
}

/** Slanted lines over a gap, and its two edges. */
function hatch(from: number, to: number, box: PlotBox): Mark[] {
  const height = box.bottom - box.top;
  const at: number[] = [];
  for (let x = from - height; x < to; x += 8) at.push(x, box.bottom, x + height, box.top);
  return [
    {
      kind: 'clip',
      x: from,
      y: box.top,
      width: Math.max(1, to - from),
      height,
      marks: [{ kind: 'lines', at, stroke: { ink: 'line-strong', width: 0.7 } }],
    },
    {
      kind: 'lines',
      at: [from, box.top, from, box.bottom, to, box.top, to, box.bottom],
      stroke: { ink: 'repeat', width: 1, dash: [3, 3] },
    },
  ];
}
