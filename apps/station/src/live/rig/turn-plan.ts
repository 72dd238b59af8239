import type { Clearance, TurnPlan } from '@sthene/capture';
import { headlineMetric, protocolRegistry } from '@sthene/core';
import type { MetricPoint, Setup } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import type { Allowed } from '../day/gates.ts';
import { type Done, isWarmUp } from '../day/remaining.ts';
import { shownMetrics } from './shown-values.ts';

/** What the lab knows of someone's earlier tests, as a turn and a verdict use it. */
export interface History {
  /** What the test is about (peak force, or of a jump its headline) of counting maximal efforts of the same test, oldest first. */
  readonly peaks: readonly { readonly trial: string; readonly value: number; readonly unit: string }[];
  /** In a jump test: the same efforts' values of everything a verdict shows, by metric. */
  readonly beside?: Readonly<Record<string, readonly number[]>>;
  /** Body weight of the last session that has one, N. */
  readonly lastBodyWeight?: number;
  /** Usual share of the right foot while standing, %. */
  readonly usualShareRight?: number;
  /** Usual tension on the bar before the pull, N above body weight. */
  readonly usualTension?: number;
}

/** Reads a person's history with a test. */
export async function historyOf(lab: OpenLab, person: string, test: string): Promise<History> {
  const [peaks, shares, sessions] = await Promise.all([
    lab.store.results.history({ of: { person }, metric: headlineMetric(test), protocol: test }),
    lab.store.results.history({ of: { person }, metric: 'standing_share_right', protocol: test }),
    lab.store.sessions.list({ person, resultsOnly: false, limit: 20 }),
  ]);
  const weighed = sessions.items.find(({ session }) => session.bodyWeight !== undefined)?.session.bodyWeight?.value;
  const values = shares.flatMap(presentValue).slice(-9);
  const middle = median(values);
  const jump = protocolRegistry.get(test)?.jump;
  const tensions = jump === undefined ? await tensionsOf(lab, peaks.filter(counting).slice(-5)) : [];
  const tension = median(tensions);
  return {
    peaks: peaks.filter(counting).flatMap((point) => {
      const { metric, trial } = point;
      return metric !== undefined && 'value' in metric ? [{ trial, value: metric.value, unit: metric.unit }] : [];
    }),
    ...(jump === undefined ? {} : { beside: await besideOf(lab, person, test, shownMetrics({ jump })) }),
    ...(weighed === undefined ? {} : { lastBodyWeight: weighed }),
    // A share is usual once it was seen a few times.
    ...(middle === undefined || values.length < often ? {} : { usualShareRight: middle }),
    ...(tension === undefined || tensions.length < often ? {} : { usualTension: tension }),
  };
}

async function besideOf(
  lab: OpenLab,
  person: string,
  test: string,
  metrics: readonly string[],
): Promise<Record<string, number[]>> {
  const found = await Promise.all(
    metrics.map(async (metric) => {
      const points = await lab.store.results.history({ of: { person }, metric, protocol: test });
      return [metric, points.filter(counting).flatMap(presentValue)] as const;
    }),
  );
  return Object.fromEntries(found);
}

/** So many times make a habit. */
const often = 3;

/** Tension before the pull of earlier efforts, as their check of it measured it. */
async function tensionsOf(lab: OpenLab, points: readonly MetricPoint[]): Promise<number[]> {
  const results = await Promise.all(points.map(({ trial }) => lab.store.results.current(trial)));
  return results.flatMap((result) => result?.document.checks.pretension?.value ?? []);
}

/** Where the bar stands, when both today and last time are known and differ: by its pin, else by 1 cm or more. */
export function barMovedOf(now: Setup, last: Setup | undefined): TurnPlan['barMoved'] {
  const pins = [last?.bar_pin, now.bar_pin];
  if (typeof pins[0] === 'string' && typeof pins[1] === 'string')
    return pins[0].trim() === pins[1].trim() ? undefined : { last: pins[0], now: pins[1] };
  const heights = [last?.bar_height, now.bar_height];
  if (typeof heights[0] !== 'number' || typeof heights[1] !== 'number') return undefined;
  return Math.abs(heights[0] - heights[1]) < 1 ? undefined : { last: heights[0], now: heights[1] };
}

const counting = (point: MetricPoint) => point.effort === 'maximal' && point.standing === 'counts';
const presentValue = ({ metric }: MetricPoint) => (metric !== undefined && 'value' in metric ? [metric.value] : []);

function median(values: readonly number[]): number | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  if (sorted.length === 0) return undefined;
  return sorted.length % 2 === 1 ? sorted[middle] : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2;
}

/** The plan of a turn: ids and numbers only, no name reaches the engine. */
export function turnPlan(input: {
  readonly person: string;
  /** Maximal efforts still to be done. */
  readonly maximalLeft: number;
  readonly done: readonly Done[];
  readonly history: History;
  readonly allowed: Allowed;
  readonly minor: boolean;
  readonly painStopped: boolean;
  readonly barMoved?: TurnPlan['barMoved'];
  /** Given in a jump test, whose headline is no force the engine could aim at. */
  readonly jumpSetup?: TurnPlan['jumpSetup'];
  /** Nobody has announced this person. */
  readonly unknown?: boolean;
  /** Efforts of this person that this very engine has judged: it counts them itself. */
  readonly knownToEngine: { readonly counting: number; readonly submaximal: number };
}): TurnPlan {
  const { done, history, knownToEngine } = input;
  const best = history.peaks.reduce((most, { value }) => Math.max(most, value), 0);
  const warmed = done.filter(isWarmUp).length;
  return {
    person: input.person,
    clearances: clearancesOf(input.allowed),
    minor: input.minor,
    painStopped: input.painStopped,
    // The engine counts its own; what the set still asks for by all efforts of the day comes on top.
    maximalTrials: knownToEngine.counting + input.maximalLeft,
    warmUpDone: Math.max(0, warmed - knownToEngine.submaximal),
    ...(history.lastBodyWeight === undefined ? {} : { lastBodyWeight: history.lastBodyWeight }),
    ...(history.usualShareRight === undefined ? {} : { usualShareRight: history.usualShareRight }),
    ...(history.usualTension === undefined ? {} : { usualTension: history.usualTension }),
    ...(best > 0 && input.jumpSetup === undefined ? { ownBest: best } : {}),
    ...(input.jumpSetup === undefined ? {} : { jumpSetup: input.jumpSetup }),
    ...(input.barMoved === undefined ? {} : { barMoved: input.barMoved }),
    ...(input.unknown === true ? { unknown: true } : {}),
  };
}

function clearancesOf(allowed: Allowed): Clearance[] {
  if (allowed === 'nothing') return [{ level: 'not-cleared' }];
  if (allowed === 'submaximal') return [{ level: 'submaximal-only' }];
  return [];
}
