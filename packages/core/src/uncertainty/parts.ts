/** Parts of an uncertainty, in the order they are listed. */
export const partIds = [
  'gain',
  'plate-gain',
  'repeatability',
  'linearity',
  'beyond-check',
  'body-weight',
  'noise',
  'synchronisation',
  'sampling',
  'peak-instant',
] as const;

export type PartId = (typeof partIds)[number];

/** What each part is, for people. */
export const partWords: Readonly<Record<PartId, string>> = {
  gain: 'Gain of the plates, common to all forces',
  'plate-gain': 'Gain of each plate by itself',
  repeatability: 'One loading of a plate against the next',
  linearity: 'Departure from a straight line',
  'beyond-check': 'Force beyond the largest checked one',
  'body-weight': 'Body weight, by how still the athlete stood',
  noise: 'Noise of single samples',
  synchronisation: 'Plates in step with each other',
  sampling: 'Grid of the samples',
  'peak-instant': 'Which instant of a flat top is the highest',
};

export const onsetTimingWords = 'Onset timing: half the change between the onsets at B + 3 S and B + 5 S';

export const jumpOnsetTimingWords =
  'Onset timing: half the change between the onsets at 3 and at 5 SD of the quiet second';

export const flightTimingWords =
  'Timing of take-off and touchdown: half the change between the threshold and the next published one';

/** One part of a value's uncertainty. */
export interface UncertaintyPart {
  readonly id: PartId;
  readonly words: string;
  /** Standard uncertainty it gives the value, in the value's unit; 0 where it is there but cancels. */
  readonly standard: number;
  /** How it was found, where that needs saying. */
  readonly note?: string;
}

/** A part that may matter and of which nothing is known. */
export interface UnknownPart {
  readonly id: PartId;
  readonly words: string;
}

/** The uncertainty of one value (GUM, k = 2), part by part. */
export interface Uncertainty {
  /** Combined standard uncertainty of the known parts, in `unit`. */
  readonly standard: number;
  /** Coverage factor times that. */
  readonly expanded: number;
  readonly coverage: number;
  readonly unit: string;
  readonly parts: readonly UncertaintyPart[];
  readonly unknown: readonly UnknownPart[];
  /** Beside the combined value, never in it; absent where the value needs no onset or one of the two onsets is missing. */
  readonly onsetTiming?: { readonly words: string; readonly standard: number };
  /** The same for take-off and touchdown of a jump. */
  readonly flightTiming?: { readonly words: string; readonly standard: number };
}

/** Coverage factor: about 95 % where no part of few degrees of freedom leads (GUM 6.3.3). */
export const coverage = 2;
