import { headlineMetric } from '../facts/facts.ts';
import type { SetRule } from '../methods/method.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import { meanOf, sdOf } from '../signal/index.ts';
import type { ResultInShort } from './result-in-short.ts';

/** One trial of a set, in the order pulled. */
export interface SetTrial {
  readonly result: Pick<ResultInShort, 'test' | 'verdict' | 'metrics'>;
  /** False for submaximal efforts: they never enter. */
  readonly maximal: boolean;
  /** A person's decision, where there is one; it wins over the verdict. */
  readonly overruled?: 'counts' | 'does-not-count';
}

/** Where a set of maximal efforts stands. */
export interface SetState {
  /** Positions of the trials that count. */
  readonly counting: readonly number[];
  /** Maximal pulls so far, rejected ones included. */
  readonly maximal: number;
  /** Difference of the two highest peak forces, its limit, and whether they agree; a reason with fewer than two. */
  readonly agreement: Outcome<{ readonly difference: number; readonly limit: number; readonly agree: boolean }>;
  /** True after `closesAfter` maximal pulls: no further one is asked for, whatever the agreement. */
  readonly closed: boolean;
  /** True when another maximal trial is asked for. */
  readonly another: boolean;
}

/** A set's value of one metric. */
export interface SetSummary {
  readonly value: number;
  readonly unit: string;
  readonly summary: SetRule['summary'];
  /** Positions of the trials behind `value`. */
  readonly used: readonly number[];
  /** Trials that count and have the metric: n, and their sample SD and CV in %. */
  readonly n: number;
  readonly sd: Outcome<number>;
  readonly cv: Outcome<number>;
}

/** True when a trial enters summaries: maximal, and it counts or was overruled to count. */
export const counts = ({ result, maximal, overruled }: SetTrial): boolean =>
  maximal && (overruled ?? (result.verdict === 'counts' ? 'counts' : 'does-not-count')) === 'counts';

/**
 * Agreement and closing of a set.
 *
 * The two highest values of the trials that count agree when they differ by no more than the limit: the share of the best where the
 * rule has one, else so many newtons. The value is peak force, in jump tests the headline metric of the test. Reasons:
 * `too-few-trials` under two; `not-defined` for a limit in newtons where the value has another unit.
 *
 * @param minimum trials that must count before a set is complete
 */
export function setState(trials: readonly SetTrial[], rule: SetRule, minimum = 2): SetState {
  const counting = positions(trials, counts);
  const maximal = trials.filter((trial) => trial.maximal).length;
  const agreement = agreementOf(trials, counting, rule);
  const closed = maximal >= rule.closesAfter;
  const complete = counting.length >= minimum && !(agreement.ok && !agreement.value.agree);
  return { counting, maximal, agreement, closed, another: !closed && !complete };
}

/**
 * One value of a metric for a set: the mean of all trials that count, the mean of the two with the highest peak force (in jump tests:
 * with the highest headline metric), or the trial with the highest. SD and CV are always those of all trials that count.
 *
 * @returns `too-few-trials` when the rule's trials, or their values of this metric, are not there
 */
export function summarise(trials: readonly SetTrial[], metric: string, rule: SetRule): Outcome<SetSummary> {
  const counting = positions(trials, counts);
  const withValue = counting.filter((at) => valueIn(trials, at, metric) !== undefined);
  const used = rule.summary === 'mean-all' ? withValue : highest(trials, counting, rule.summary === 'best' ? 1 : 2);
  if (used.length === 0 || (rule.summary === 'mean-best-two' && used.length < 2)) return lack('too-few-trials');
  const values = used.map((at) => valueIn(trials, at, metric));
  if (!values.every((value) => value !== undefined)) return lack('too-few-trials');
  const all = withValue.map((at) => valueIn(trials, at, metric)?.value as number);
  const mean = meanOf(all);
  const sd = all.length < 2 ? lack('too-few-trials') : have(sdOf(all));
  return have({
    value: meanOf(values.map(({ value }) => value)),
    unit: values[0]?.unit as string,
    summary: rule.summary,
    used,
    n: all.length,
    sd,
    cv: !sd.ok ? sd : mean > 0 ? have((100 * sd.value) / mean) : lack('not-defined'),
  });
}

function agreementOf(trials: readonly SetTrial[], counting: readonly number[], rule: SetRule): SetState['agreement'] {
  const peaks = highest(trials, counting, 2).map((at) => headline(trials, at));
  const [best, second] = peaks;
  if (best === undefined || second === undefined) return lack('too-few-trials');
  if (rule.agreementShare === undefined && best.unit !== 'N') return lack('not-defined');
  const limit = rule.agreementShare === undefined ? rule.agreement : rule.agreementShare * best.value;
  const difference = best.value - second.value;
  return have({ difference, limit, agree: difference <= limit });
}

/** The value by which trials are ranked. */
const headline = (trials: readonly SetTrial[], at: number) =>
  valueIn(trials, at, headlineMetric(trials[at]?.result.test ?? ''));

/** Positions of the `count` trials with the highest headline value, highest first, earlier first among equals. */
function highest(trials: readonly SetTrial[], among: readonly number[], count: number): number[] {
  return among
    .map((at) => ({ at, peak: headline(trials, at)?.value }))
    .filter((entry): entry is { at: number; peak: number } => entry.peak !== undefined)
    .sort((a, b) => b.peak - a.peak || a.at - b.at)
    .slice(0, count)
    .map(({ at }) => at);
}

function valueIn(trials: readonly SetTrial[], at: number, metric: string): { value: number; unit: string } | undefined {
  const measured = trials[at]?.result.metrics[metric];
  return measured && 'value' in measured ? measured : undefined;
}

function positions(trials: readonly SetTrial[], test: (trial: SetTrial) => boolean): number[] {
  return trials.flatMap((trial, at) => (test(trial) ? [at] : []));
}
