import { numberText } from '../../number/format.ts';

/** A scale from values to pixels, with round ticks. */
export interface PlotScale {
  readonly at: (value: number) => number;
  readonly ticks: readonly number[];
  /** The ticks in pixels, written with as many decimals as tell neighbours apart. */
  readonly marks: readonly { readonly at: number; readonly text: string }[];
}

/** Linear, with some room at both ends; `from` and `to` are pixels. */
export function valueScale(values: readonly number[], from: number, to: number): PlotScale {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = 0.08 * (high - low || Math.abs(high) || 1);
  const [a, b] = [low - room, high + room];
  const step = roundStep((b - a) / 5);
  const ticks = [];
  for (let tick = Math.ceil(a / step); tick * step <= b; tick++) ticks.push(tick * step);
  const at = (value: number) => from + ((value - a) / (b - a)) * (to - from);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return { at, ticks, marks: ticks.map((tick) => ({ at: at(tick), text: numberText(tick, decimals) })) };
}

function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  const share = least / power;
  return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
}

/** Tick of a time scale: an instant in ms and what to write. */
export interface TimeTick {
  readonly at: number;
  readonly text: string;
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const year = 31_557_600_000;

/** Linear in time; ticks at the beginning of months or years, at most so many. */
export function timeScale(instants: readonly number[], from: number, to: number, most = 8) {
  if (instants.length === 0) return { at: () => from, ticks: [] };
  const [low, high] = [Math.min(...instants), Math.max(...instants)];
  const room = 0.04 * (high - low) || 15 * 86_400_000;
  const [a, b] = [low - room, high + room];
  const everyMonths = [1, 2, 3, 6, 12, 24, 60, 120].find((n) => (b - a) / ((year / 12) * n) <= most) ?? 240;
  const ticks: TimeTick[] = [];
  const first = new Date(a);
  for (let month = 0; ; month++) {
    const at = new Date(first.getFullYear(), month);
    if (at.getTime() > b) break;
    const whole = at.getFullYear() * 12 + at.getMonth();
    if (at.getTime() < a || whole % everyMonths !== 0) continue;
    const name = months[at.getMonth()] as string;
    ticks.push({ at: at.getTime(), text: at.getMonth() === 0 || everyMonths >= 12 ? String(at.getFullYear()) : name });
  }
  return { at: (instant: number) => from + ((instant - a) / (b - a)) * (to - from), ticks };
}
