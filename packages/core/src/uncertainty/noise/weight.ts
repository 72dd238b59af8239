import type { TrialContext } from '../../analysis/trial-context.ts';
import type { Measured } from '../../metrics/metric.ts';
import type { SampleNoise } from '../sources.ts';

/** A value measured, not a reason. */
export type Value = Extract<Measured, { readonly value: number }>;

/** What one sample, or the mean of some, weighs in a value: change of the value for one unit of force. */
export interface NoiseWeight {
  readonly of: 'total' | 'left' | 'right';
  readonly weight: number;
  /** Samples averaged; their noise falls with the root of their number. */
  readonly samples: number;
}

/** How single-sample noise reaches a value, or why it does not. */
export type NoiseRule =
  | {
      readonly kind: 'weights';
      /** How, for people. */
      readonly words: string;
      readonly of: (trial: TrialContext, value: Value) => readonly NoiseWeight[];
    }
  | { readonly kind: 'none'; readonly why: string };

export const one = (of: NoiseWeight['of'], weight: number): NoiseWeight => ({ of, weight, samples: 1 });

/** Force of a point the value was made from. */
export const pointForce = ({ evidence }: Value, index: number): number => evidence.points?.[index]?.force ?? Number.NaN;

/** Number of a term the value was made from. */
export const term = ({ evidence }: Value, name: string): number =>
  evidence.terms?.find((named) => named.name === name)?.value ?? Number.NaN;

/**
 * Samples that stand for one independent one: 1 without a filter; behind a low-pass fs / (2 fc), because samples closer than that move
 * together.
 */
export const dependentSamples = ({ method, forces }: TrialContext): number =>
  method.filter === undefined ? 1 : Math.max(1, forces.sampleRate / (2 * method.filter.cutoff));

/**
 * Standard uncertainty a value has from white noise of single samples: the root of the sum of (weight S)^2 / n over its independent pieces.
 *
 * @returns undefined where the noise of a side is asked for and not known
 */
export function noiseOf(weights: readonly NoiseWeight[], noise: SampleNoise, dependent: number): number | undefined {
  let sum = 0;
  for (const { of, weight, samples } of weights) {
    const sd = noise[of];
    if (sd === undefined) return undefined;
    sum += (weight * sd) ** 2 / Math.max(1, samples / dependent);
  }
  return Number.isFinite(sum) ? Math.sqrt(sum) : undefined;
}
