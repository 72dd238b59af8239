import { setImmediate as turn } from 'node:timers/promises';
import { type ComparedMetric, type ComparedPairs, type Comparison, mostPairs } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import type { MetricValue, Recomputation, RecomputedTrial } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { metricNamed } from '../athlete/metrics.ts';
import { nameOf } from '../people.ts';
import { type Both, comparedMetric, pairsOf } from './compared.ts';
import { sessionsOf } from './session-level.ts';

/** How long a request waits for the table before it takes what is there, ms. */
const patience = 1_500;
/** Runs whose table is kept. */
const most = 3;
const atOnce = 400;
/** Values asked for by one question, so that no answer holds others up for long. */
const rowsAtOnce = 10_000;

interface Work {
  readonly trials: Promise<RecomputedTrial[]>;
  readonly rows: ComparedMetric[];
  complete: boolean;
  done: Promise<void>;
}

const kept = new WeakMap<OpenLab, Map<string, Work>>();

/** Every metric before and after; gone through in the background, a request takes what there is. */
export async function comparisonOf(lab: OpenLab, id: string): Promise<Comparison> {
  const work = await workOf(lab, id);
  if (work === undefined) return { metrics: [], complete: false };
  await Promise.race([work.done, new Promise((resolve) => setTimeout(resolve, patience).unref())]);
  return { metrics: [...work.rows], complete: work.complete };
}

/** One metric before and after, trial by trial or session by session. */
export async function comparedPairs(
  lab: OpenLab,
  id: string,
  asked: { readonly metric: string; readonly level: 'trial' | 'session' },
): Promise<ComparedPairs> {
  const definition = metricNamed(asked.metric);
  const work = await workOf(lab, id);
  const trials = work === undefined ? [] : await work.trials;
  const values = (await valuesOf(lab, trials, [asked.metric])).get(asked.metric) ?? [];
  const rows =
    asked.level === 'trial'
      ? values.map((both, i) => ({ both, trial: trials[i] as RecomputedTrial }))
      : sessionsOf(trials, values);
  const both = rows.map((row) => row.both);
  const { pairs, unit = definition.unit } = pairsOf(both);
  const metric = comparedMetric(definition, both, true) ?? nothing(definition.id, definition.title, unit);
  const names = new Map((await lab.store.people.list()).map((one) => [one.id, nameOf(one)]));
  // Evenly over the list, which is in no order of its own, and always the same ones.
  const step = Math.max(1, pairs.length / mostPairs);
  const shown = Array.from({ length: Math.min(pairs.length, mostPairs) }, (_, i) => pairs[Math.floor(i * step)]);
  return {
    metric,
    level: asked.level,
    total: pairs.length,
    pairs: shown.flatMap((pair) => {
      const trial = pair && rows[pair.at]?.trial;
      if (trial === undefined || pair === undefined) return [];
      const { first, second } = pair;
      const own = asked.level === 'trial' ? { trial: trial.trial, order: trial.position } : {};
      return [{ ...own, session: trial.session, person: names.get(trial.person) ?? '', at: trial.at, first, second }];
    }),
  };
}

const nothing = (id: string, title: string, unit: string): ComparedMetric => ({
  ...{ id, title, unit, scale: 'unit', n: 0, onlyFirst: 0, onlySecond: 0, same: false, reason: 'too-few-values' },
});

/** The work on a run's table, begun where it was not; undefined while the run is running and the table would not hold. */
async function workOf(lab: OpenLab, id: string): Promise<Work | undefined> {
  const run = await lab.store.recomputations.get(id);
  if (run === undefined) throw problems.notFound('recomputation');
  if (run.state === 'running') return undefined;
  const own = kept.get(lab) ?? new Map<string, Work>();
  kept.set(lab, own);
  const key = await keyOf(lab, run);
  const there = own.get(key);
  if (there !== undefined) return there;
  const work: Work = { trials: comparable(lab, id), rows: [], complete: false, done: Promise.resolve() };
  own.set(key, work);
  for (const oldest of own.keys()) {
    if (own.size <= most) break;
    own.delete(oldest);
  }
  work.done = goThrough(lab, work).catch((error: unknown) => {
    own.delete(key);
    throw error;
  });
  work.done.catch(() => {});
  return work;
}

/** What the table depends on: what was judged, and what people decided, which says what counts. */
async function keyOf(lab: OpenLab, run: Recomputation): Promise<string> {
  return `${run.id} ${run.revision} ${(await lab.store.audit.last())?.sequence ?? 0}`;
}

/** A few metrics of a large archive at a time, all of a small one: pairs held in memory at once. */
const pairsAtOnce = 500_000;

async function goThrough(lab: OpenLab, work: Work): Promise<void> {
  const trials = await work.trials;
  const atOnceMetrics = Math.max(1, Math.floor(pairsAtOnce / Math.max(1, trials.length)));
  for (let start = 0; start < metricFacts.all.length; start += atOnceMetrics) {
    const definitions = metricFacts.all.slice(start, start + atOnceMetrics);
    const values = await valuesOf(
      lab,
      trials,
      definitions.map(({ id }) => id),
    );
    for (const definition of definitions) {
      const row = comparedMetric(definition, values.get(definition.id) ?? []);
      if (row !== undefined) work.rows.push(row);
      await turn();
    }
  }
  work.complete = true;
}

/** Maximal efforts that count under one method at least: the values of others are never used. */
async function comparable(lab: OpenLab, run: string): Promise<RecomputedTrial[]> {
  const found: RecomputedTrial[] = [];
  for (let after: string | undefined; ; ) {
    const rows = await lab.store.recomputations.outcomes(run, {
      limit: atOnce,
      ...(after === undefined ? {} : { after }),
    });
    for (const row of rows) {
      const counts = row.before?.standing === 'counts' || row.after?.standing === 'counts';
      if (row.effort === 'maximal' && counts && row.before !== undefined && row.after !== undefined) found.push(row);
    }
    if (rows.length < atOnce) return found;
    after = rows.at(-1)?.trial;
    await turn();
  }
}

/** Values of some metrics under both methods, by metric, in the order of the trials. */
async function valuesOf(
  lab: OpenLab,
  trials: readonly RecomputedTrial[],
  metrics: readonly string[],
): Promise<Map<string, Both[]>> {
  const found = new Map(metrics.map((metric) => [metric, [] as Both[]]));
  const step = Math.max(20, Math.min(atOnce, Math.floor(rowsAtOnce / (2 * metrics.length))));
  for (let start = 0; start < trials.length; start += step) {
    const piece = trials.slice(start, start + step);
    const ids = piece.flatMap(({ before, after }) => [before?.result ?? '', after?.result ?? '']);
    const values = new Map<string, MetricValue>();
    for (const { result, metric, ...value } of await lab.store.recomputations.values(ids, metrics))
      values.set(`${result} ${metric}`, value);
    for (const [metric, both] of found)
      for (const { before, after } of piece)
        both.push([values.get(`${before?.result} ${metric}`), values.get(`${after?.result} ${metric}`)]);
    await turn();
  }
  return found;
}
