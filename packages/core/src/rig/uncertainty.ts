import type { PlateFigures } from './plate-figures.ts';

/**
 * How well a rig (or one plate) is known to measure, from its check. All are standard uncertainties; the additive ones are in
 * newtons and hold up to `largestForce`, beyond which `growth` takes over. The gain is one error common to every force of a trial:
 * it cancels in a ratio of two forces from the same plates.
 */
export interface RigUncertainty {
  /** Relative: masses, gravity, the slope's own error, and the gain error that stays uncorrected. */
  readonly gain: number;
  /** N: what reading the same load again changes, and the zero with it. */
  readonly repeatability: number;
  /** N: how far the plates bend away from their line, up and down. */
  readonly linearity: number;
  /** Largest force that was checked, N. */
  readonly largestForce: number;
  /** The parts of `gain`, relative. */
  readonly parts: GainParts;
}

export interface GainParts {
  readonly masses: number;
  readonly gravity: number;
  readonly slope: number;
  readonly uncorrected: number;
}

/**
 * By how much the additive uncertainties grow beyond the largest checked force: T2(2 F / largest - 1) = 2 (2 F / largest - 1)^2 - 1,
 * and 1 up to it. Of all parabolas that stay within +-d over the checked range none leaves it faster than Chebyshev's, so a plate
 * that bends smoothly is off by at most d times this (extremal property of Chebyshev polynomials; Rivlin 1974, from memory).
 */
export function growthBeyond(force: number, largestForce: number): number {
  if (largestForce <= 0) return Number.POSITIVE_INFINITY;
  const x = Math.abs(force) / largestForce;
  return x <= 1 ? 1 : 2 * (2 * x - 1) ** 2 - 1;
}

/** The parts of a rig's uncertainty at one force, N, standard; `combined` is their root sum of squares. */
export function forceUncertainty(
  rig: RigUncertainty,
  force: number,
): { readonly gain: number; readonly repeatability: number; readonly linearity: number; readonly combined: number } {
  const growth = growthBeyond(force, rig.largestForce);
  const gain = rig.gain * Math.abs(force);
  const repeatability = rig.repeatability * growth;
  const linearity = rig.linearity * growth;
  return { gain, repeatability, linearity, combined: Math.hypot(gain, repeatability, linearity) };
}

/**
 * Uncertainty of one plate from its figures.
 *
 * Gain: relative uncertainty of the largest load without gravity (`masses`), of gravity, standard error of the slope, and the gain
 * error left in the readings as a rectangle, |s - 1| / sqrt 3. Repeatability: pooled SD of repeated readings (type A; with one series
 * the standard error of the fit) with the worst zero return as a rectangle. Linearity: the largest distance of any mean reading,
 * up or down, from the line, as a rectangle.
 *
 * @param gravity relative standard uncertainty of gravity
 * @returns undefined where no line could be fitted
 */
export function plateUncertainty(figures: PlateFigures, gravity: number): RigUncertainty | undefined {
  const { line, largestLoad, loads } = figures;
  if (!line.ok || largestLoad === 0) return undefined;
  const { slope, offset, slopeError, standardError } = line.value;
  const top = loads.at(-1)?.loadUncertainty ?? 0;
  const masses = Math.sqrt(Math.max(0, (top / largestLoad) ** 2 - gravity ** 2));
  const parts = { masses, gravity, slope: slopeError, uncorrected: Math.abs(slope - 1) / Math.sqrt(3) };
  const away = loads.flatMap(({ load, up, down }) =>
    [up, down].flatMap((value) => (value === undefined ? [] : Math.abs(value - offset - slope * load))),
  );
  const zero = Math.abs(figures.zeroReturn?.newtons ?? 0) / Math.sqrt(3);
  return {
    gain: Math.hypot(...Object.values(parts)),
    repeatability: Math.hypot(figures.repeatabilitySd ?? standardError, zero),
    linearity: Math.max(...away) / Math.sqrt(3),
    largestForce: largestLoad,
    parts,
  };
}

/**
 * Uncertainty of the sum of plates. Masses and gravity are common to all plates; the other parts of the gain are taken from the worst
 * plate, as if it carried everything; the additive parts are independent; the largest force is the sum.
 */
export function sumUncertainty(plates: readonly RigUncertainty[]): RigUncertainty | undefined {
  if (plates.length === 0) return undefined;
  const worst = (part: keyof GainParts) => Math.max(...plates.map(({ parts }) => parts[part]));
  const parts = {
    ...{ masses: worst('masses'), gravity: worst('gravity') },
    ...{ slope: worst('slope'), uncorrected: worst('uncorrected') },
  };
  return {
    gain: Math.hypot(...Object.values(parts)),
    repeatability: Math.hypot(...plates.map(({ repeatability }) => repeatability)),
    linearity: Math.hypot(...plates.map(({ linearity }) => linearity)),
    largestForce: plates.reduce((sum, { largestForce }) => sum + largestForce, 0),
    parts,
  };
}
