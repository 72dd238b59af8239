/** A straight mapping between data and pixels. */
export interface Scale {
  readonly domain: readonly [number, number];
  readonly range: readonly [number, number];
  /** Pixel of a data value. */
  at(value: number): number;
  /** Data value at a pixel. */
  from(pixel: number): number;
}

/** Makes a scale. An empty domain maps everything to the start of the range. */
export function linear(domain: readonly [number, number], range: readonly [number, number]): Scale {
  const span = domain[1] - domain[0];
  const gain = span === 0 ? 0 : (range[1] - range[0]) / span;
  return {
    domain,
    range,
    at: (value) => range[0] + (value - domain[0]) * gain,
    from: (pixel) => (gain === 0 ? domain[0] : domain[0] + (pixel - range[0]) / gain),
  };
}

/** The smallest step of the series ... 1, 2, 5, 10, 20, 50 ... that is not below `least`. */
export function stepAtLeast(least: number): number {
  if (!(least > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(least));
  for (const factor of [1, 2, 5]) if (factor * power >= least * (1 - 1e-9)) return factor * power;
  return 10 * power;
}

/** First digit of a 1-2-5 step. */
const leading = (step: number) => Math.round(step / 10 ** Math.floor(Math.log10(step) + 1e-9));

/** How many parts the paper's fine grid cuts a step into, so that the fine lines are round numbers too. */
export function partsOf(step: number): 4 | 5 | 10 {
  return leading(step) === 2 ? 4 : leading(step) === 5 ? 5 : 10;
}

/** Multiples of `step` within [from, to], without the drift of repeated addition. */
export function multiples(from: number, to: number, step: number): number[] {
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => tidy((first + i) * step, step));
}

/** Removes the binary dust of a multiple: 3 x 0.1 is 0.3. */
function tidy(value: number, step: number): number {
  return Number(value.toFixed(decimalsOf(step))) + 0;
}

/** Decimals needed to write a multiple of a step exactly. */
export function decimalsOf(step: number): number {
  return Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
}
