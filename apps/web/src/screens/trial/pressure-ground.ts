import type { PressurePart, TrialPressure } from '@sthene/contract';

/** Ticks an axis has at most. */
const mostTicks = 6;
/** Least extent that is drawn, mm, so that a point is no plot of noise. */
const least = 60;
const most = 320; // px, height

interface Scale {
  readonly at: (millimetres: number) => number;
  readonly ticks: readonly number[];
}

/**
 * Edges, height and scales of the floor from above, with one scale for both axes.
 *
 * @param mirrored the second axis runs down the figure: that of a plate whose z points down, which from above is a mirror image else
 */
export function groundOf(
  plates: TrialPressure['plates'],
  combined: readonly PressurePart[],
  width: number,
  mirrored: boolean,
) {
  const places = [
    ...plates.flatMap(({ outline = [], parts }) => [...outline, ...parts.flatMap(({ points }) => points)]),
    ...combined.flatMap(({ points }) => points),
  ].flatMap((one) => (one === null ? [] : [one]));
  const extent = (axis: 0 | 1) => {
    const values = places.map((one) => one[axis]);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const missing = Math.max(0, least - (high - low)) / 2 + 0.03 * (high - low);
    return [low - missing, high + missing] as const;
  };
  const [left, right] = extent(0);
  const [low, high] = extent(1);
  const ground = { left: 52, right: width - 10, top: 8 };
  const perMillimetre = Math.min((ground.right - ground.left) / (right - left), (most - 46) / (high - low));
  const edges = {
    ...ground,
    right: ground.left + perMillimetre * (right - left),
    bottom: ground.top + perMillimetre * (high - low),
  };
  const step = stepOf(Math.max(right - left, high - low));
  const x: Scale = { at: (value) => edges.left + perMillimetre * (value - left), ticks: ticksOf(left, right, step) };
  const down = (value: number) => perMillimetre * (mirrored ? value - low : high - value);
  const y: Scale = { at: (value) => edges.top + down(value), ticks: ticksOf(low, high, step) };
  return { edges, height: edges.bottom + 38, x, y };
}

/** The smallest of 1, 2, 5 times a power of ten that makes few enough ticks. */
function stepOf(extent: number): number {
  const power = 10 ** Math.floor(Math.log10(extent / mostTicks));
  return power * ([1, 2, 5, 10].find((factor) => factor * power * mostTicks >= extent) ?? 10);
}

function ticksOf(low: number, high: number, step: number): number[] {
  const ticks: number[] = [];
  for (let tick = Math.ceil(low / step) * step; tick <= high; tick += step) ticks.push(tick);
  return ticks;
}
