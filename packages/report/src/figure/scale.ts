import type { Dates } from '../text/dates.ts';

/** A scale from values to points, with round ticks. */
export interface Scale {
  readonly at: (value: number) => number;
  readonly ticks: readonly number[];
}

/** Linear, with some room at both ends; `from` and `to` are points. */
export function valueScale(values: readonly number[], from: number, to: number, about = 5): Scale {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = 0.08 * (high - low || Math.abs(high) || 1);
  const [a, b] = [low - room, high + room];
  const step = roundStep((b - a) / about);
  const ticks: number[] = [];
  for (let tick = Math.ceil(a / step); tick * step <= b; tick++) ticks.push(tick * step);
  return { at: (value) => from + ((value - a) / (b - a)) * (to - from), ticks };
}

/** 1, 2 or 5 times a power of ten, not below `least`. */
function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  const share = least / power;
  return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
}

interface TimeTick {
  readonly at: number;
  readonly text: string;
}

const monthLength = 30.4375 * 86_400_000;

/** Linear in time; ticks at the beginning of months or years, at most so many. */
export function timeScale(instants: readonly number[], from: number, to: number, dates: Dates, most = 8) {
  const [low, high] = [Math.min(...instants), Math.max(...instants)];
  const room = 0.05 * (high - low) || 15 * 86_400_000;
  const [a, b] = [low - room, high + room];
  const every = [1, 2, 3, 6, 12, 24, 60, 120].find((n) => (b - a) / (monthLength * n) <= most) ?? 240;
  const first = dates.parts(new Date(a).toISOString());
  const ticks: TimeTick[] = [];
  for (let month = first.year * 12 + first.month - 1; ; month++) {
    const [year, number] = [Math.floor(month / 12), month % 12];
    // Midnight UTC: half a day at most from the lab's own, less than a line is wide.
    const at = Date.UTC(year, number);
    if (at > b) break;
    if (at < a || month % every !== 0) continue;
    ticks.push({ at, text: number === 0 || every >= 12 ? String(year) : dates.month(number + 1) });
  }
  return { at: (instant: number) => from + ((instant - a) / (b - a)) * (to - from), ticks };
}
