import type { Ink, Mark, Measure } from './scene.ts';

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** One place a label may stand: an anchor point and which way the text runs from it. `y` is the text's middle. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

export interface LabelWish {
  readonly text: string;
  readonly ink: Ink;
  readonly weight?: number;
  readonly size?: number;
  readonly face?: 'sans' | 'mono';
  /** Higher ones are placed first. */
  readonly priority: number;
  /** In order of preference. */
  readonly spots: readonly Spot[];
  /** A label without a free spot is left out unless it must be seen; then its first spot is taken. */
  readonly must?: boolean;
}

/**
 * Places labels one after another, most important first, each at its first spot that stays inside the bounds and touches
 * neither an obstacle nor a label already placed. What finds no free spot is left out (the tables still say it).
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  bounds: Box,
  measure: Measure,
  obstacles: readonly Box[] = [],
): Mark[] {
  const taken: Box[] = [...obstacles];
  const marks: Mark[] = [];
  for (const wish of [...wishes].sort((a, b) => b.priority - a.priority)) {
    const size = wish.size ?? 12;
    const weight = wish.weight ?? 400;
    const face = wish.face ?? 'sans';
    const width = measure(wish.text, size, weight, face);
    const free = wish.spots.find((spot) => {
      const box = boxOf(spot, width, size);
      return inside(box, bounds) && taken.every((other) => !overlap(box, other));
    });
    const spot = free ?? (wish.must ? wish.spots[0] : undefined);
    if (spot === undefined) continue;
    taken.push(boxOf(spot, width, size));
    const y = spot.y + size * 0.34;
    marks.push({
      kind: 'text',
      x: spot.x,
      y,
      text: wish.text,
      anchor: spot.anchor,
      ink: wish.ink,
      size,
      weight,
      face,
      halo: true,
    });
  }
  return marks;
}

/** The room a label takes, with a little air. */
export function boxOf(spot: Spot, width: number, size: number): Box {
  const left = spot.anchor === 'start' ? spot.x : spot.anchor === 'end' ? spot.x - width : spot.x - width / 2;
  return { left: left - 2, right: left + width + 2, top: spot.y - size * 0.62, bottom: spot.y + size * 0.62 };
}

const inside = (box: Box, bounds: Box) =>
  box.left >= bounds.left && box.right <= bounds.right && box.top >= bounds.top && box.bottom <= bounds.bottom;

export const overlap = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
