import type { TrialContext } from '../analysis/trial-context.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { touchesGap } from '../signal/index.ts';
import type { CheckResult } from './check.ts';

/** Limits by name. */
export type Limits = Readonly<Record<string, number>>;

/** The two levels of a check, either of which a method may leave out. */
export interface Levels {
  readonly warn?: number;
  readonly fail?: number;
}

/** What limits may be shares or multiples of. */
export interface Scales {
  /** W; absent when it is not known. */
  readonly weight?: number | undefined;
  readonly peak?: number;
  readonly sd?: number;
}

export type Marks = NonNullable<CheckResult['marks']>;

/** Not judged, and why. */
export const notJudged = (
  unit: string,
  why: NonNullable<CheckResult['notJudged']>,
  judged?: SampleSpan,
): CheckResult => ({
  status: 'not-judged',
  unit,
  notJudged: why,
  ...(judged === undefined ? {} : { judged }),
});

/**
 * Levels of a check from its named limits. `warn` and `fail` are in the check's unit; with the endings `ShareOfWeight`,
 * `ShareOfPeak` and `Sds` they are multiplied by W, F_p and S. Where several are given for one level the largest holds.
 * Undefined when a share of W is asked for and W is not known.
 */
export function levelsOf(limits: Limits, scales: Scales = {}): Levels | undefined {
  const levels: { warn?: number; fail?: number } = {};
  for (const level of ['warn', 'fail'] as const) {
    let largest = limits[level];
    const scaled = [
      [limits[`${level}ShareOfWeight`], scales.weight],
      [limits[`${level}ShareOfPeak`], scales.peak],
      [limits[`${level}Sds`], scales.sd],
    ] as const;
    for (const [share, scale] of scaled) {
      if (share === undefined) continue;
      if (scale === undefined) return undefined;
      if (largest === undefined || share * scale > largest) largest = share * scale;
    }
    if (largest !== undefined) levels[level] = largest;
  }
  return levels;
}

/** Warn or fail when `size` is more than the level. */
export const judgeAbove = (
  value: number,
  levels: Levels,
  unit: string,
  judged?: SampleSpan,
  marks?: Marks,
  size = value,
): CheckResult => judge(value, levels, (level) => size > level, unit, judged, marks);

/** Warn or fail from the level on. */
export const judgeFrom = (
  value: number,
  levels: Levels,
  unit: string,
  judged?: SampleSpan,
  marks?: Marks,
): CheckResult => judge(value, levels, (level) => value >= level, unit, judged, marks);

/** Warn or fail when the value is less than the level. */
export const judgeBelow = (
  value: number,
  levels: Levels,
  unit: string,
  judged?: SampleSpan,
  marks?: Marks,
): CheckResult => judge(value, levels, (level) => value < level, unit, judged, marks);

function judge(
  value: number,
  levels: Levels,
  beyond: (level: number) => boolean,
  unit: string,
  judged?: SampleSpan,
  marks?: Marks,
): CheckResult {
  const failed = levels.fail !== undefined && beyond(levels.fail);
  const warned = !failed && levels.warn !== undefined && beyond(levels.warn);
  const limit = failed ? levels.fail : (levels.warn ?? levels.fail);
  return {
    status: failed ? 'fail' : warned ? 'warn' : 'pass',
    value,
    unit,
    ...(limit === undefined ? {} : { limit }),
    ...(judged === undefined ? {} : { judged }),
    ...(marks === undefined ? {} : { marks }),
  };
}

/** True when a sample of the span is missing and was not filled. */
export const hasOpenGap = (trial: TrialContext, span: SampleSpan): boolean =>
  span.end > span.start && touchesGap(trial.forces, span.start, span.end - 1);

/** True in tests where limits in newtons mean something: the athlete's weight rests on the plates. */
export const isWeighted = (trial: TrialContext): boolean =>
  trial.protocol.load === 'weight' && trial.forces.unit === 'N';

/** W where it is known. */
export const weightOf = (trial: TrialContext): number | undefined =>
  trial.bodyWeight.ok ? trial.bodyWeight.value.value : undefined;

/** First sample at or after a (possibly fractional) onset. */
export const firstSample = (onset: number): number => Math.max(0, Math.ceil(onset));

/**
 * First index from r on with F >= B + share (F_p - B). It exists for shares up to 1, because F_p lies after r; undefined when
 * an onset placed by hand lies behind it.
 */
export function riseReaches(
  trial: TrialContext,
  baselineMean: number,
  share: number,
  onset: number,
): number | undefined {
  const { forces, events } = trial;
  const level = baselineMean + share * (events.peak.force - baselineMean);
  let i = events.halfRise;
  while (i < events.peak.index && (forces.total[i] as number) < level) i++;
  return i >= onset ? i : undefined;
}

/** First sample of the judged pull: the baseline's, or the span's where no baseline was found. */
export const pullStart = (trial: TrialContext): number =>
  Math.max(0, trial.events.baseline.ok ? trial.events.baseline.value.start : trial.events.span.start);
