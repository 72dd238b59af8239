/** A value, or the reason in the words of the definitions. */
export type Maybe<T> = { readonly value: T } | { readonly reason: string };

/** Samples `start` to `end - 1`. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Plate {
  readonly side: string;
  readonly force: Float64Array;
  readonly range?: readonly [low: number, high: number];
}

/** What the plain analysis needs. Forces in N (or the test's unit), one value a sample, positive when pressed. */
export interface Input {
  readonly fs: number;
  readonly total: Float64Array;
  readonly left?: Float64Array;
  readonly right?: Float64Array;
  readonly plates: readonly Plate[];
  readonly gaps: { readonly filled: readonly Span[]; readonly open: readonly Span[] };
  readonly bodyWeight?: { readonly value: number; readonly from: 'weighing' | 'given' };
  readonly gravity: number;
  readonly load: 'weight' | 'none';
  readonly limbs: 'both' | 'left' | 'right' | 'any';
  /** Planned length of the pull and limits of `sustained_effort`, s. */
  readonly pull: { readonly planned: number; readonly warnUnder: number; readonly failUnder: number };
  readonly onsetRule: string;
  readonly onsetByHand?: number;
  /** Index of the cue, may be fractional. */
  readonly cue?: number;
  readonly unloaded?: { readonly before: number; readonly after: number };
  readonly span?: Span;
  readonly efforts: 'largest' | 'all';
  readonly allometricExponent: number;
  /** Length of the standing and baseline window w, s. */
  readonly baselineSeconds: number;
  /** Length of the anchor window v, s. */
  readonly anchorSeconds: number;
  /** Net cut-off of the zero-lag filter, Hz; absent: no filter. */
  readonly filterCutoff?: number;
}

export interface Baseline {
  readonly start: number;
  readonly end: number;
  /** B and S of the definitions. */
  readonly mean: number;
  readonly sd: number;
}

export interface Onset {
  readonly index: number;
  readonly threshold: number;
}

/** Letters as in section 2 of the definitions. */
export interface Events {
  readonly span: Span;
  readonly a: number;
  readonly c: number;
  readonly M: number;
  readonly Q: number;
  readonly H: number;
  readonly r: number;
  readonly e: number;
  readonly p: number;
  readonly Fp: number;
  readonly baseline: Maybe<Baseline>;
  readonly q: Maybe<number>;
}

/** One effort with everything metrics and checks look at; forces are filtered where a filter is asked for. */
export interface Trial {
  readonly input: Input;
  readonly F: Float64Array;
  readonly L: Float64Array | undefined;
  readonly R: Float64Array | undefined;
  readonly events: Events;
  readonly W: Maybe<{ readonly value: number; readonly from: 'weighing' | 'given' | 'baseline' }>;
  readonly onset: Maybe<Onset>;
  readonly onsets: Readonly<Record<string, Maybe<Onset>>>;
}

export interface Judged {
  readonly status: 'pass' | 'warn' | 'fail' | 'not-judged';
  readonly value?: number;
  readonly notJudged?: string;
}

export interface Result {
  readonly span: Span;
  readonly reason?: string;
  readonly events?: Events;
  readonly W?: Trial['W'];
  readonly onset?: Maybe<Onset>;
  readonly onsets?: Readonly<Record<string, Maybe<Onset>>>;
  readonly metrics: Readonly<Record<string, Maybe<number>>>;
  readonly checks: Readonly<Record<string, Judged>>;
  readonly verdict: 'counts' | 'look-again' | 'repeat';
}
