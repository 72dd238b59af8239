import type { BeforeView } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { confirmableGrid, type ErrorOfTest, errorParts } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { type Asked, chosen } from '../athlete/chosen.ts';
import { ofPeople } from '../athlete/everybody.ts';
import { labHistory, type NoiseHistory, withNoise } from '../athlete/history.ts';
import { metricFacts } from '../athlete/metrics.ts';

const trials = [1, 2, 3, 4, 5];
const sessions = [1, 2, 3];

/**
 * The smallest gain a squad's test can confirm, for each number of trials and sessions. The error of a session is taken apart into what
 * trials average out and what they do not; a rig check would add its own part and is said to be missing where there is none.
 */
export async function beforeView(lab: OpenLab, asked: Asked): Promise<BeforeView> {
  const { definition, test, belongs, choice } = await chosen(lab, asked);
  const metric = metricFacts(definition);
  if (test === undefined) return { ...choice, metric, scale: 'unit', plans: [], usual: 0, reason: 'too-few-values' };
  const squads = choice.squad === undefined ? [] : [choice.squad];
  const history = await withNoise(lab, await labHistory(lab, test, definition), squads);
  const usual = protocolRegistry.get(test)?.maximalTrials.planned ?? 2;
  const newest = [...ofPeople(history)].flatMap(([person, own]) =>
    belongs(person)
      ? (own.findLast(({ value, unit }) => value !== undefined && unit === history.unit)?.value ?? [])
      : [],
  );
  const base = {
    ...{ ...choice, test, metric: { ...metric, unit: history.unit }, scale: history.scale, usual },
    ...(newest.length === 0 ? {} : { typical: newest.reduce((sum, value) => sum + value, 0) / newest.length }),
  };
  const within = scatterWithin(history);
  if (!history.noise.ok || within === undefined)
    return { ...base, plans: [], reason: history.noise.ok ? 'too-few-values' : history.noise.reason };
  const { error, worthwhile, people } = history.noise.value;
  const parts = errorParts(error, within, within.trials);
  const smallest = worthwhile.ok ? worthwhile.value : 0;
  return {
    ...base,
    noise: {
      error: { value: error.value, df: error.df },
      ...{ between: parts.between, within: { value: within.value, df: within.df }, trials: within.trials, people },
      ...(worthwhile.ok ? { worthwhile: worthwhile.value } : {}),
      adopted: history.adopted !== undefined,
    },
    plans: confirmableGrid(parts, { df: error.df, worthwhile: smallest }, trials, sessions).map((one) => ({ ...one })),
  };
}

/** SD between trials of one session, pooled over the lab, on the scale; and how many trials a session had, as their harmonic mean. */
function scatterWithin({ everyone, unit, scale }: NoiseHistory): (ErrorOfTest & { trials: number }) | undefined {
  let [squares, df, inverse, n] = [0, 0, 0, 0];
  for (const one of everyone) {
    if (one.value === undefined || one.unit !== unit || one.familiarisation) continue;
    inverse += 1 / one.n;
    n += 1;
    if (one.sd === undefined) continue;
    // On the log scale the SD of a session's few alike values is their SD over their mean, to first order.
    const sd = scale === 'log' ? (100 * one.sd) / one.value : one.sd;
    squares += (one.n - 1) * sd ** 2;
    df += one.n - 1;
  }
  return df === 0 ? undefined : { value: Math.sqrt(squares / df), df, trials: n / inverse };
}
