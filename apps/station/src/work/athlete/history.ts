import type { Adoption } from '@sthene/contract';
import type { MetricFacts, Outcome } from '@sthene/core';
import { noiseOfTest, type Scale, type SessionValue, type TestNoise } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { isRatioMetric } from '../battery/ratio-metrics.ts';
import { ratioSessions } from '../battery/ratio-sessions.ts';
import { adoptionFor, listAdoptions, noiseOfAdoption } from '../follow/adoptions.ts';
import { rigChecksOf } from '../uncertainty/rig-check.ts';
import { metricNamed } from './metrics.ts';
import { remembered, stateOfValues } from './remembered.ts';
import type { SessionOfMetric } from './session-values.ts';
import type { Circumstances } from './unlike.ts';
import { valuesOfEveryone } from './values-of-everyone.ts';

const millisecondsOfDay = 86_400_000;
export const dayOf = (instant: string): number => Date.parse(instant) / millisecondsOfDay;

/** One metric of one test in a lab: everybody's sessions. */
export interface LabHistory {
  readonly test: string;
  readonly metric: string;
  /** Oldest first, of every unit. */
  readonly everyone: readonly SessionOfMetric[];
  /** Unit of the values that are judged; others stand aside. */
  readonly unit: string;
  readonly better: MetricFacts['better'];
  readonly scale: Scale;
  /** The recomputation whose candidates these are. */
  readonly run?: string;
}

/** With what the sessions say of the test's noise, or what was adopted in its place. */
export interface NoiseHistory extends LabHistory {
  readonly noise: Outcome<TestNoise>;
  readonly adopted?: Adoption;
}

/** Forces and rates are judged in logs, everything else in its unit. */
export const isForce = (unit: string): boolean => /^N(\W|$)/.test(unit) || /^(kgf|lbf)/.test(unit);

/**
 * @param person whose unit is the one to judge, where units differ
 * @param run a recomputation whose candidates stand as if it were adopted
 */
export async function labHistory(
  lab: OpenLab,
  test: string,
  { id, unit: usual, better }: MetricFacts,
  person?: string,
  run?: string,
): Promise<LabHistory> {
  const everyone = isRatioMetric(id)
    ? await ratioSessions(id, test, (of, metric) => labHistory(lab, of, metricNamed(metric, of), undefined, run))
    : await valuesOfEveryone(lab, { metric: id, protocol: test, ...(run === undefined ? {} : { run }) });
  const unit = everyone.find((one) => one.unit !== undefined && (person ?? one.person) === one.person)?.unit ?? usual;
  const valued = everyone.filter((one) => one.unit === unit && one.value !== undefined);
  const scale: Scale = isForce(unit) && valued.every(({ value = 0 }) => value > 0) ? 'log' : 'unit';
  return { test, metric: id, everyone, unit, better, scale, ...(run === undefined ? {} : { run }) };
}

/** Adds the noise that holds for somebody of these squads. */
export const withNoise = async (
  lab: OpenLab,
  history: LabHistory,
  squads: readonly string[] = [],
): Promise<NoiseHistory> => (await noiseBySquads(lab, history))(squads);

/**
 * The noise for somebody of some squads: that of a study adopted for one of them or for everybody, else that of the lab's history, which
 * takes a fit over all sessions and is kept until one of its values changes.
 */
export async function noiseBySquads(
  lab: OpenLab,
  history: LabHistory,
): Promise<(squads: readonly string[]) => Promise<NoiseHistory>> {
  const adoptions = await listAdoptions(lab);
  let usual: Promise<NoiseHistory> | undefined;
  return async (squads) => {
    const adopted = adoptionFor(adoptions, history, squads);
    if (adopted !== undefined) return { ...history, adopted, noise: { ok: true, value: noiseOfAdoption(adopted) } };
    usual ??= noiseOfHistory(lab, history);
    return usual;
  };
}

async function noiseOfHistory(lab: OpenLab, history: LabHistory): Promise<NoiseHistory> {
  const { test, metric, unit, scale, run = '' } = history;
  const values = await repeatedValues(lab, history);
  const key = `noise ${test} ${metric} ${unit} ${run}`;
  const noise = await remembered(lab, key, `${scale} ${stateOfValues(values)}`, () => noiseOfTest(values, scale));
  return { ...history, noise };
}

/** Values that tell the noise: familiarisation stays out; sexes are not compared. */
export async function repeatedValues(lab: OpenLab, { everyone, unit }: LabHistory): Promise<SessionValue[]> {
  const sexes = new Map((await lab.store.people.list()).map((one) => [one.id, one.sex ?? '']));
  return everyone.flatMap(({ person, at, value, unit: its, familiarisation }): SessionValue[] =>
    value === undefined || its !== unit || familiarisation
      ? []
      : [{ person, day: dayOf(at), value, group: sexes.get(person) ?? '' }],
  );
}

/** What the sessions depended on besides the athlete, one for each. */
export async function circumstancesOf(lab: OpenLab, sessions: readonly SessionOfMetric[]): Promise<Circumstances[]> {
  const ids = [...new Set(sessions.flatMap(({ session, sessions: all = [] }) => [session, ...all]))];
  const found = await lab.store.sessions.getMany(ids);
  const checks = await rigChecksOf(lab, found);
  const known = new Map(found.map((session, i) => [session.id, { session, check: checks[i] }]));
  const of = (id: string): Pick<Circumstances, 'session' | 'check'> => {
    const one = known.get(id);
    if (one === undefined) throw problems.notFound('session');
    return one;
  };
  return sessions.map(({ session, sessions: all = [], methods }) => ({
    ...of(session),
    methods,
    ...(all.length === 0 ? {} : { others: all.filter((id) => id !== session).map(of) }),
  }));
}
