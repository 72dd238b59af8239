import type { MetricDefinition, Outcome } from '@sthene/core';
import { noiseOfTest, type Scale, type SessionValue, type TestNoise } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { type SessionOfMetric, sessionValues } from './session-values.ts';
import type { Circumstances } from './unlike.ts';

const millisecondsOfDay = 86_400_000;
export const dayOf = (instant: string): number => Date.parse(instant) / millisecondsOfDay;

/** One metric of one test in a lab: everybody's sessions. */
export interface LabHistory {
  /** Oldest first, of every unit. */
  readonly everyone: readonly SessionOfMetric[];
  /** Unit of the values that are judged; others stand aside. */
  readonly unit: string;
  readonly better: MetricDefinition['better'];
  readonly scale: Scale;
}

/** With what the sessions say of the test's noise. */
export interface NoiseHistory extends LabHistory {
  readonly noise: Outcome<TestNoise>;
}

/** Forces and rates are judged in logs, everything else in its unit. */
export const isForce = (unit: string): boolean => /^N(\W|$)/.test(unit) || /^(kgf|lbf)/.test(unit);

/** @param person whose unit is the one to judge, where units differ */
export async function labHistory(
  lab: OpenLab,
  test: string,
  { id, unit: usual, better }: MetricDefinition,
  person?: string,
): Promise<LabHistory> {
  const points = await lab.store.results.history({ of: 'everyone', metric: id, protocol: test });
  const everyone = sessionValues(points);
  const unit = everyone.find((one) => one.unit !== undefined && (person ?? one.person) === one.person)?.unit ?? usual;
  const valued = everyone.filter((one) => one.unit === unit && one.value !== undefined);
  const scale: Scale = isForce(unit) && valued.every(({ value = 0 }) => value > 0) ? 'log' : 'unit';
  return { everyone, unit, better, scale };
}

/** Adds the noise, which takes a fit over all sessions. Familiarisation stays out; sexes are not compared. */
export async function withNoise(lab: OpenLab, history: LabHistory): Promise<NoiseHistory> {
  const { everyone, unit, scale } = history;
  const sexes = new Map((await lab.store.people.list()).map((one) => [one.id, one.sex ?? '']));
  const repeated = everyone.flatMap(({ person, at, value, unit: its, familiarisation }): SessionValue[] =>
    value === undefined || its !== unit || familiarisation
      ? []
      : [{ person, day: dayOf(at), value, group: sexes.get(person) ?? '' }],
  );
  return { ...history, noise: noiseOfTest(repeated, scale) };
}

/** What the sessions depended on besides the athlete, one for each. */
export function circumstancesOf(lab: OpenLab, sessions: readonly SessionOfMetric[]): Promise<Circumstances[]> {
  return Promise.all(
    sessions.map(async ({ session: id, methods }) => {
      const session = await lab.store.sessions.get(id);
      if (session === undefined) throw problems.notFound('session');
      return { session, methods };
    }),
  );
}
