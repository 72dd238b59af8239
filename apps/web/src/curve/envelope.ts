import { block, fan, type Pyramid } from './pyramid.ts';

/** A run of samples, end exclusive. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** The stretches of [start, end) that lie outside all breaks (sorted, disjoint). */
export function unbroken(start: number, end: number, breaks: readonly Stretch[]): Stretch[] {
  const pieces: Stretch[] = [];
  let at = start;
  for (const gap of breaks) {
    if (gap.end <= at) continue;
    if (gap.start >= end) break;
    if (gap.start > at) pieces.push({ start: at, end: gap.start });
    at = gap.end;
  }
  if (at < end) pieces.push({ start: at, end });
  return pieces;
}

/**
 * A column width that begins and ends with the pyramid's blocks, so that a column costs a few look-ups. At most a quarter
 * narrower than asked for, never wider.
 */
function aligned(perColumn: number): number {
  let unit = block;
  if (perColumn < unit * fan) return perColumn;
  while (unit * fan * fan <= perColumn) unit *= fan;
  return Math.floor(perColumn / unit) * unit;
}

/**
 * What to draw of a stretch at a given density: pairs of sample position and value.
 *
 * Up to two samples per column every sample is kept. Above, each column keeps its first, smallest, largest and last value,
 * so that no peak and no dip vanishes however far one zooms out. Columns are counted from sample 0, not from the edge of
 * the window, so that the picture does not shimmer while it is panned.
 *
 * @param perColumn samples per pixel column
 * @returns flat array: position, value, position, value, ...
 */
export function envelope(pyramid: Pyramid, piece: Stretch, perColumn: number): number[] {
  const { values } = pyramid;
  const start = Math.max(0, Math.floor(piece.start));
  const end = Math.min(values.length, Math.ceil(piece.end));
  const points: number[] = [];
  if (perColumn <= 2) {
    for (let i = start; i < end; i++) points.push(i, values[i] as number);
    return points;
  }
  const extent = { lo: 0, hi: 0 };
  const wide = aligned(perColumn);
  let column = Math.floor(start / wide);
  let from = start;
  while (from < end) {
    column += 1;
    const to = Math.min(end, Math.max(from + 1, Math.round(column * wide)));
    pyramid.extent(from, to, extent);
    const first = values[from] as number;
    const last = values[to - 1] as number;
    const middle = (from + to - 1) / 2;
    points.push(from, first);
    if (extent.lo < first || extent.hi > first) {
      if (first <= last) points.push(middle, extent.lo, middle, extent.hi);
      else points.push(middle, extent.hi, middle, extent.lo);
      points.push(to - 1, last);
    }
    from = to;
  }
  return points;
}
