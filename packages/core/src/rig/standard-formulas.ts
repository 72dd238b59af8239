import { meanOf } from '../signal/index.ts';

/**
 * Formulas of three standards for force-measuring systems, for comparison only: a check in a gym is no calibration by any of them and
 * gives a plate no class. Formulas and class tables are from memory in the methods reference (3.11), except where it says otherwise.
 */

/** One force of an indicating system against true forces of several runs. */
export interface IndicationErrors {
  readonly meanForce: number;
  /** Relative error of indication q, %: 100 (F_i - mean F) / mean F. */
  readonly error: number;
  /** The same of each run, %. */
  readonly byRun: readonly number[];
  /** Repeatability b, %: largest less smallest error of the runs. */
  readonly repeatability: number;
}

/** ISO 7500-1: errors of an indicated force from the true forces of its runs. */
export function indicationErrors(indicated: number, trueForces: readonly number[]): IndicationErrors {
  const meanForce = meanOf(trueForces);
  const of = (force: number) => (100 * (indicated - force)) / force;
  const byRun = trueForces.map(of);
  return { meanForce, error: of(meanForce), byRun, repeatability: Math.max(...byRun) - Math.min(...byRun) };
}

/** ISO 7500-1, limits in %: error q, repeatability b, reversibility v, zero f0, resolution a (from memory). */
export const systemClasses = [
  { class: '0.5', error: 0.5, repeatability: 0.5, reversibility: 0.75, zero: 0.05, resolution: 0.25, steps: 400 },
  { class: '1', error: 1, repeatability: 1, reversibility: 1.5, zero: 0.1, resolution: 0.5, steps: 200 },
  { class: '2', error: 2, repeatability: 2, reversibility: 3, zero: 0.2, resolution: 1, steps: 100 },
  { class: '3', error: 3, repeatability: 3, reversibility: 4.5, zero: 0.3, resolution: 1.5, steps: 67 },
] as const;

/** The strictest class whose limits the given figures (%) meet; a figure that is absent is not asked. */
export function systemClassOf(
  figures: Partial<Readonly<Record<'error' | 'repeatability' | 'reversibility' | 'zero' | 'resolution', number>>>,
): string | undefined {
  const given = Object.entries(figures) as [keyof typeof figures, number][];
  return systemClasses.find((limits) => given.every(([id, value]) => Math.abs(value) <= limits[id]))?.class;
}

/** ISO 7500-1: lowest force of a range, N, for a resolution r, N: r times 400, 200, 100, 67 (verified in the methods reference). */
export const lowerLimits = (resolution: number): readonly { class: string; force: number }[] =>
  systemClasses.map(({ class: name, steps }) => ({ class: name, force: steps * resolution }));

/** Deflections of a force-proving instrument at one force, by series. */
export interface ProvingSeries {
  readonly x1: number;
  readonly x2: number;
  readonly x3: number;
  readonly x5: number;
  /** From the fitted curve. */
  readonly fitted: number;
  /** Decreasing, after series 3 and 5. */
  readonly x4: number;
  readonly x6: number;
  /** At the largest force. */
  readonly top: number;
  /** Zero after less zero before. */
  readonly zeroChange: number;
}

/** ISO 376, %: reproducibility b, repeatability b', interpolation f_c, zero f_0, reversibility v. */
export function provingErrors({ x1, x2, x3, x5, fitted, x4, x6, top, zeroChange }: ProvingSeries) {
  const rotated = [x1, x3, x5];
  const mean = meanOf(rotated);
  return {
    reproducibility: (100 * (Math.max(...rotated) - Math.min(...rotated))) / Math.abs(mean),
    repeatability: (100 * Math.abs(x2 - x1)) / Math.abs((x1 + x2) / 2),
    interpolation: (100 * (mean - fitted)) / fitted,
    zero: (100 * zeroChange) / top,
    reversibility: ((100 * Math.abs(x4 - x3)) / Math.abs(x3) + (100 * Math.abs(x6 - x5)) / Math.abs(x5)) / 2,
  };
}

/** ISO 376, limits in % in the order of `provingErrors` (from memory). */
export const provingClasses = [
  { class: '00', reproducibility: 0.05, repeatability: 0.025, interpolation: 0.025, zero: 0.012, reversibility: 0.07 },
  { class: '0.5', reproducibility: 0.1, repeatability: 0.05, interpolation: 0.05, zero: 0.025, reversibility: 0.15 },
  { class: '1', reproducibility: 0.2, repeatability: 0.1, interpolation: 0.1, zero: 0.05, reversibility: 0.3 },
  { class: '2', reproducibility: 0.4, repeatability: 0.2, interpolation: 0.2, zero: 0.1, reversibility: 0.5 },
] as const;

export function provingClassOf(errors: ReturnType<typeof provingErrors>): string | undefined {
  const given = Object.entries(errors) as [keyof typeof errors, number][];
  return provingClasses.find((limits) => given.every(([id, value]) => Math.abs(value) <= limits[id]))?.class;
}

/**
 * ASTM E74: s_m = sqrt(sum d^2 / (n - m - 1)) of the deviations from a polynomial of degree m, and the lower limit factor 2.4 s_m.
 *
 * @param degree of the fitted polynomial
 */
export function lowerLimitFactor(deviations: readonly number[], degree: number): { sd: number; factor: number } {
  const squares = deviations.reduce((sum, d) => sum + d * d, 0);
  const sd = Math.sqrt(squares / (deviations.length - degree - 1));
  return { sd, factor: 2.4 * sd };
}

/** ASTM E74: lower force limits, N, of class A (400 factors) and AA (2000 factors). */
export const verifiedFrom = (factor: number): { readonly a: number; readonly aa: number } => ({
  a: 400 * factor,
  aa: 2000 * factor,
});
