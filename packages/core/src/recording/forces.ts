import type { SampleSpan } from './sample.ts';

/** Which leg or hand a plate or channel measures. */
export type Side = 'left' | 'right' | 'none';

/** Where one force of the analysis comes from and how it becomes newtons. */
export interface ForceInput {
  readonly from:
    | { readonly kind: 'channel'; readonly index: number }
    | { readonly kind: 'platform'; readonly index: number };
  /** `total` declares the sum of all plates; the others are plates of their own. */
  readonly part: Side | 'total';
  /** UCUM code that overrides the channel's own unit. */
  readonly unit?: string;
  /** Multiplies the result; -1 flips a channel that is negative when pressed. */
  readonly sign?: 1 | -1;
  /** For voltages: newtons = (volts - zero) * newtonsPerUnit. Also usable as a plain gain and zero on any unit. */
  readonly newtonsPerUnit?: number;
  readonly zero?: number;
}

/** The choice of inputs for an analysis. */
export interface ForceSelection {
  readonly inputs: readonly ForceInput[];
}

/** One plate after scaling: newtons (or the unit of an effort without body weight), positive when pressed. */
export interface PlateForce {
  readonly name: string;
  readonly side: Side | 'total';
  readonly force: Float64Array;
  /** Limits of what the channel can give, in the same unit, where known. */
  readonly range?: readonly [low: number, high: number];
}

/**
 * The forces an analysis works on.
 *
 * `total` is the declared total where one was chosen, else the sum over plates. `left` and `right` are sums over plates of
 * that side, absent when there are none. Gaps of up to 5 ms are filled linearly (`filled`); longer ones stay (`open`), their
 * samples hold the last value before the gap so that arrays stay finite, and nothing may be computed across them.
 */
export interface Forces {
  readonly sampleRate: number;
  readonly sampleCount: number;
  /** UCUM code of all arrays; 'N' in every test with body weight. */
  readonly unit: string;
  readonly total: Float64Array;
  readonly left?: Float64Array;
  readonly right?: Float64Array;
  readonly plates: readonly PlateForce[];
  readonly gaps: { readonly filled: readonly SampleSpan[]; readonly open: readonly SampleSpan[] };
}
