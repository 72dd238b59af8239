import type { AnyMethod, RigVerdict } from '@sthene/core';
import type { Language } from '../model/document.ts';
import type { Logo } from '../model/logo.ts';

/** What every report is made with, besides its data. */
export interface ReportFrame {
  readonly language: Language;
  readonly lab: { readonly name: string; readonly logo?: Logo };
  /** Invented people: every page says so. */
  readonly demo: boolean;
  /** Program and version that writes the report. */
  readonly software: string;
  /** IANA time zone of the dates. */
  readonly zone: string;
  /** How somebody without a birth date is reported. */
  readonly unknownAge: 'as-minor' | 'as-adult';
}

export interface PersonFacts {
  readonly name: string;
  readonly code: string;
  /** `YYYY-MM-DD`. */
  readonly birthDate?: string | undefined;
}

export interface MetricFacts {
  readonly id: string;
  readonly title: string;
  readonly unit: string;
  readonly formula: string;
  readonly source: string;
  readonly better: 'higher' | 'lower' | 'neither';
}

/** A method as results name it, with its document. */
export interface MethodFacts {
  readonly name: string;
  readonly version: number;
  readonly sha256: string;
  readonly document: AnyMethod;
}

/** The check with known masses that stood when something was measured. */
export interface RigCheckFacts {
  readonly rig: string;
  readonly at: string;
  readonly verdict: RigVerdict;
  /** N; 0 without a load. */
  readonly checkedTo: number;
}

/** A protocol version by its name and hash. */
export interface ProtocolFacts {
  readonly name: string;
  readonly version: number;
  readonly sha256: string;
}

export interface IntervalFacts {
  readonly low: number;
  readonly high: number;
  readonly level: number;
}

export type ChangeWord =
  | 'stronger'
  | 'probably stronger'
  | 'weaker'
  | 'probably weaker'
  | 'unchanged'
  | "inside the test's noise"
  | 'cannot tell yet';

/** The newest session against a reference, as it was judged. */
export interface ChangeFacts {
  readonly reference: 'last' | 'first' | 'mean-of-three' | 'season-start';
  readonly sessions: readonly string[];
  readonly value: number;
  readonly difference: number;
  readonly percent?: number | undefined;
  readonly band: IntervalFacts;
  readonly intervals: readonly IntervalFacts[];
  readonly more: number;
  readonly less: number;
  readonly within: number;
  readonly detectable: number;
  /** What the sessions owe to different rigs or checks, in the unit; without a size where a check is missing. */
  readonly rigs?: { readonly standard?: number | undefined } | undefined;
  readonly word: ChangeWord;
  readonly alike: ChangeWord;
  readonly unlike: readonly string[];
  readonly byChance: number;
  readonly confirmable: number;
  readonly halve?: number | undefined;
}
