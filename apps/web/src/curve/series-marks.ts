import { envelope, unbroken } from './envelope.ts';
import type { PlotBox } from './grid.ts';
import type { Series } from './model.ts';
import type { Scale } from './scale.ts';
import type { Mark } from './scene.ts';
import type { View } from './view.ts';

/** The line of a series inside a view, as one path for each unbroken piece. */
export function seriesMarks(series: Series, view: View, box: PlotBox, x: Scale, y: Scale, weight: number): Mark[] {
  const stroke = { ink: series.ink, width: series.width * weight, ...(series.dash ? { dash: series.dash } : {}) };
  return pieces(series, view, box.right - box.left).map((points) => ({
    kind: 'path' as const,
    points: placed(points, series, x, y, series.dash !== undefined),
    stroke,
  }));
}

/** Sample positions and values to draw, one list for each unbroken piece that the view touches. */
export function pieces(
  series: Pick<Series, 'pyramid' | 'rate' | 'start' | 'breaks'>,
  view: View,
  columns: number,
): number[][] {
  const from = Math.max(0, Math.floor((view.from - series.start) * series.rate) - 1);
  const to = Math.min(series.pyramid.values.length, Math.ceil((view.to - series.start) * series.rate) + 2);
  const perColumn = ((view.to - view.from) * series.rate) / Math.max(1, columns);
  return unbroken(from, to, series.breaks).map((piece) => envelope(series.pyramid, piece, perColumn));
}

/**
 * To pixels. Wiggles far below a line's own width are passed over: they cannot be seen, but stroking them costs most of a
 * frame, and on a dashed line they would use up the dashes and make the pattern unreadable.
 */
function placed(points: readonly number[], series: Series, x: Scale, y: Scale, dashed: boolean): number[] {
  const still = dashed ? 0.6 : 0.3;
  const out: number[] = [];
  let lastX = Number.NEGATIVE_INFINITY;
  let lastY = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < points.length; i += 2) {
    const px = x.at(series.start + (points[i] as number) / series.rate);
    const py = y.at(points[i + 1] as number);
    if (px - lastX < 1.6 && Math.abs(py - lastY) < still && i + 2 < points.length) continue;
    out.push(px, py);
    lastX = px;
    lastY = py;
  }
  return out;
}
