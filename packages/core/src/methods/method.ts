/**
 * A method: a named, versioned, hashed, unchangeable recipe. Never edited, only succeeded. Its hash is SHA-256 over the
 * canonical JSON of everything but `name`-independent presentation; see `hash.ts`.
 */
export interface Method {
  readonly schema: 'sthene.method/1';
  readonly name: string;
  readonly version: number;
  /** One sentence for people. */
  readonly summary: string;
  /** Absent: no filter. */
  readonly filter?: LowPassFilter;
  readonly onset: OnsetChoice;
  readonly window: WindowLengths;
  /** Metric id to version. */
  readonly metrics: Readonly<Record<string, number>>;
  /** Check id to version and limits. */
  readonly checks: Readonly<Record<string, CheckChoice>>;
  readonly set: SetRule;
  /** Exponent of body mass in `peak_force_allometric`. */
  readonly allometricExponent: number;
  /** When this document overrides a named one: that one's hash and what was changed. */
  readonly derivedFrom?: {
    readonly name: string;
    readonly version: number;
    readonly sha256: string;
    readonly changes: Readonly<Record<string, number | string>>;
  };
}

/** Butterworth low-pass, zero-lag: one second-order section forward and back. */
export interface LowPassFilter {
  readonly kind: 'butterworth-zero-lag';
  /** Net -3 dB frequency of both passes, Hz. */
  readonly cutoff: number;
}

/** Onset rule by id and version. */
export interface OnsetChoice {
  readonly rule: string;
  readonly version: number;
}

/** Window lengths in seconds. */
export interface WindowLengths {
  /** Standing and baseline window (w). */
  readonly baseline: number;
  /** Anchor window (v). */
  readonly anchor: number;
  /** Longest time a baseline may lie before the half rise. */
  readonly search: number;
  /** Distance the baseline keeps from the latest quiet window's start. */
  readonly clearance: number;
}

/** A check's version and its limits; a limit is in the check's unit unless `shareOfWeight` says otherwise. */
export interface CheckChoice {
  readonly version: number;
  readonly limits: Readonly<Record<string, number>>;
}

/** How a set of maximal efforts becomes one value. */
export interface SetRule {
  readonly summary: 'mean-all' | 'mean-best-two' | 'best';
  /** Largest allowed difference of the two highest peak forces, N. */
  readonly agreement: number;
  /** Alternative as a share of the best, used where given (0.1 under 18 years by default practice). */
  readonly agreementShare?: number;
  /** Maximal pulls after which a set closes, rejected ones included. */
  readonly closesAfter: number;
}

/** What a result says of its method. */
export interface MethodReference {
  readonly name: string;
  readonly version: number;
  readonly sha256: string;
}
