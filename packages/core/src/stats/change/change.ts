import { studentT } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability } from '../interval.ts';
import { detectableAt, detectableChange, type ErrorOfTest } from '../reliability/index.ts';

/** A new value against a reference, all in one unit (for per cent: 100 ln x). */
export interface ChangeQuestion {
  readonly now: number;
  readonly reference: number;
  /** Sessions behind each of the two. */
  readonly sessions: readonly [number, number];
  /** Between-session error of one session's value. */
  readonly error: ErrorOfTest;
  /** Smallest worthwhile change, not negative. */
  readonly worthwhile: number;
  /** Whether more of this metric is better. */
  readonly better: 'more' | 'less';
  /** What the two measurements owe to different rigs or checks, as one standard uncertainty; 0 where they share one. */
  readonly rigs?: number;
  /** Something else differs between the two: setup, rig, local gravity. The word then claims one step less. */
  readonly unlike?: boolean;
}

/** What may be said of a change; `stronger` and `weaker` follow the metric's direction. */
export type ChangeWord =
  | 'stronger'
  | 'probably stronger'
  | 'weaker'
  | 'probably weaker'
  | 'unchanged'
  | "inside the test's noise"
  | 'cannot tell yet';

/** A change with everything its word rests on. */
export interface Change {
  readonly difference: number;
  /** TE sqrt(1/n now + 1/n reference), and what the rigs add. */
  readonly standardError: number;
  readonly df: number;
  /** 50, 90 and 95 % intervals of the true change. */
  readonly intervals: readonly [Estimate, Estimate, Estimate];
  /** Probabilities under a flat prior that the true change lies beyond the worthwhile one, up or down, or within. */
  readonly more: number;
  readonly less: number;
  readonly within: number;
  /** 1.96 sqrt(2) TE. */
  readonly detectable: number;
  readonly word: ChangeWord;
  /** The word before `unlike` took a step off it. */
  readonly alike: ChangeWord;
}

const sure = 0.95;
const probable = 0.9;
const unchangedFrom = 0.75;

/**
 * Standard error of a change: sqrt(TE^2 (1/n + 1/m) + u^2), u what two rigs or two checks of one leave between the two measurements. The
 * scatter between sessions holds all other parts already.
 */
export const errorOfChange = (error: ErrorOfTest, sessions: readonly [number, number], rigs = 0): number =>
  Math.sqrt(error.value ** 2 * (1 / sessions[0] + 1 / sessions[1]) + rigs ** 2);

/**
 * Judges a change: d = now - reference, SE = TE sqrt(1/n + 1/m) with the rigs' part added in squares, intervals and probabilities from t with the error's df.
 *
 * `stronger` or `weaker` from P(beyond) 0.95, `probably` from 0.90, `unchanged` from P(within) 0.75, `inside the test's noise` when
 * |d| < MDC95, else `cannot tell yet`.
 *
 * Sources: Hopkins 2000, Sports Med 30:1-15 and 2004, Sportscience 8:1-7; Swinton et al. 2018, Front Nutr 5:41.
 */
export function judgeChange(question: ChangeQuestion): Change {
  const { now, reference, sessions, error, worthwhile, better, unlike = false } = question;
  const difference = now - reference;
  const standardError = errorOfChange(error, sessions, question.rigs);
  const { df } = error;
  const more = studentT.above((worthwhile - difference) / standardError, df);
  const less = studentT.below((-worthwhile - difference) / standardError, df);
  const within = Math.max(0, 1 - more - less);
  const interval = (level: number) => {
    const half = studentT.quantile(upperProbability(level), df) * standardError;
    return estimate(difference, difference - half, difference + half, level);
  };
  const detectable = detectableChange(error.value, detectableAt[95]);
  const [up, down] = better === 'more' ? [more, less] : [less, more];
  const doubtful: ChangeWord = Math.abs(difference) < detectable ? "inside the test's noise" : 'cannot tell yet';
  const alike: ChangeWord =
    up >= sure
      ? 'stronger'
      : down >= sure
        ? 'weaker'
        : up >= probable
          ? 'probably stronger'
          : down >= probable
            ? 'probably weaker'
            : within >= unchangedFrom
              ? 'unchanged'
              : doubtful;
  return {
    ...{ difference, standardError, df, more, less, within, detectable },
    intervals: [interval(0.5), interval(0.9), interval(0.95)],
    word: unlike ? oneStepLess(alike, doubtful) : alike,
    alike,
  };
}

function oneStepLess(word: ChangeWord, doubtful: ChangeWord): ChangeWord {
  if (word === 'stronger') return 'probably stronger';
  if (word === 'weaker') return 'probably weaker';
  return word === "inside the test's noise" ? word : word === 'cannot tell yet' ? word : doubtful;
}

/** How often nothing but noise would give such a word. */
export interface ByChance {
  /** `stronger` or `weaker`. */
  readonly sure: number;
  /** These or `probably`. */
  readonly probable: number;
}

/** Probability that an athlete who did not change at all is called changed: 2 P(T > SWC / SE + t). Multiply by the list's length. */
export function wordByChance({
  sessions,
  error,
  worthwhile,
  rigs,
}: Pick<ChangeQuestion, 'sessions' | 'error' | 'worthwhile' | 'rigs'>): ByChance {
  const standardError = errorOfChange(error, sessions, rigs);
  const { df } = error;
  const beyond = (p: number) => 2 * studentT.above(worthwhile / standardError + studentT.quantile(p, df), df);
  return { sure: beyond(sure), probable: beyond(probable) };
}
