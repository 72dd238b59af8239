import type { Notice } from './notice.ts';
import type { SampleSpan, UtcInstant } from './sample.ts';

/** Storage types a channel may keep its received values in. */
export type RawSamples =
  | Float64Array
  | Float32Array
  | Int32Array
  | Int16Array
  | Uint16Array
  | Uint32Array
  | Int8Array
  | Uint8Array;

/** One received channel. Raw values are never changed; everything else is a recorded step over them. */
export interface Channel {
  /** Name as the source wrote it, outer blanks removed; unique within a recording (a repeated one gets ` (2)`, ` (3)`, ...). */
  readonly name: string;
  /** UCUM code of the physical unit, or '' where the source names none. */
  readonly unit: string;
  /** Samples as received. A missing sample is NaN in a float array and is also listed in the recording's gaps. */
  readonly raw: RawSamples;
  /** physical value = (raw - offset) * scale, in `unit`. */
  readonly scale: number;
  readonly offset: number;
  /** Smallest and largest raw value the converter can give, where the source says so. */
  readonly rawRange?: readonly [low: number, high: number];
}

/** A force platform described by the source (C3D). Geometry is kept as read; lengths in `lengthUnit`. */
export interface ForcePlatform {
  readonly name: string;
  /** Platform type as numbered by the C3D standard (1 to 4 are computed; others carry no vertical force). */
  readonly type: number;
  /** 0-based indices into the recording's channels, in the order the type prescribes. */
  readonly channels: readonly number[];
  /** Vertical force in N along the plate's own axis, with the sign the file gives. Absent when it cannot be computed. */
  readonly verticalForce?: Float64Array;
  /** +1 when pressing gives a positive `verticalForce`, -1 when it gives a negative one; the analysis multiplies by it. */
  readonly pressSign: 1 | -1;
  readonly corners?: readonly (readonly [number, number, number])[];
  readonly origin?: readonly [number, number, number];
  readonly calibration?: readonly (readonly number[])[];
  readonly lengthUnit?: string;
  /** What each of `channels` shows of the empty plate, in the channel's unit; absent where nothing is to be taken off. */
  readonly baselines?: readonly number[];
}

/** How a recording's rate came about. */
export type RateOrigin = 'declared' | 'time-column' | 'time-column-snapped' | 'given';

/** A labelled instant the source carried (a cue, a mark), in seconds from the first sample. */
export interface SourceEvent {
  readonly label: string;
  readonly time: number;
}

/**
 * What was received: channels on one sample grid, with their gaps. Formats produce it, everything behind consumes it, and
 * nothing behind knows whether it was live, imported or simulated.
 */
export interface Recording {
  /** Hz; time of sample n is n / sampleRate from the first sample. */
  readonly sampleRate: number;
  readonly rateOrigin: RateOrigin;
  /** Rate as measured from the time column, Hz, where there is one. */
  readonly measuredRate?: number;
  readonly sampleCount: number;
  readonly channels: readonly Channel[];
  readonly platforms: readonly ForcePlatform[];
  /** Missing samples, sorted and disjoint, on the grid. Nothing is filled here. */
  readonly gaps: readonly SampleSpan[];
  readonly events: readonly SourceEvent[];
  readonly recordedAt?: UtcInstant;
  /** Free key-value facts of the source (preamble lines, manufacturer fields), as text. */
  readonly facts: Readonly<Record<string, string>>;
  /** What a reader had to decide or repair, for people to read. */
  readonly notices: readonly Notice[];
}
