import type { RatioComponent } from '@sthene/contract';
import { errorFor } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { dayOf, labHistory, type NoiseHistory, withNoise } from '../athlete/history.ts';
import { metricNamed } from '../athlete/metrics.ts';
import type { SessionOfMetric } from '../athlete/session-values.ts';
import { dayAt } from './match.ts';

/** A session with a value in the unit that is judged. */
export type ValuedSession = SessionOfMetric & { readonly value: number };

/** One value of one test of an athlete over time, with its typical error. */
export interface SideHistory {
  readonly test: string;
  readonly metric: string;
  readonly title: string;
  readonly unit: string;
  /** Sessions of the test, with and without the value, oldest first. */
  readonly sessions: readonly SessionOfMetric[];
  readonly valued: readonly ValuedSession[];
  /** Error of the value of a session, in the unit. */
  readonly errorOf: (session: ValuedSession) => Pick<RatioComponent, 'error' | 'errorFrom'>;
}

/** @param until last day that is looked at */
export async function sideHistory(
  lab: OpenLab,
  {
    person,
    squads,
    until,
  }: { readonly person: string; readonly squads: readonly string[]; readonly until: string | undefined },
  test: string,
  metric: string,
): Promise<SideHistory> {
  const definition = metricNamed(metric, test);
  const history = await withNoise(lab, await labHistory(lab, test, definition, person), squads);
  const all = history.everyone.filter((one) => one.person === person);
  const isValued = (one: SessionOfMetric): one is ValuedSession => one.value !== undefined && one.unit === history.unit;
  const sessions = all.filter(({ at }) => until === undefined || dayAt(at) <= until);
  return {
    ...{ test, metric: definition.id, title: definition.title, unit: history.unit, sessions },
    valued: sessions.filter(isValued),
    errorOf: errorOfSessions(history, all.filter(isValued)),
  };
}

/**
 * The error an athlete's change in this value is judged by: that of an adopted study or of the lab's sessions, joined with the athlete's own.
 * Where neither is known, that of the mean of the session's trials, SD / sqrt(n), which holds nothing of the day.
 */
function errorOfSessions(
  { noise, scale, adopted }: NoiseHistory,
  own: readonly ValuedSession[],
): SideHistory['errorOf'] {
  const { used } = errorFor(
    own.map(({ at, value, familiarisation }) => ({ day: dayOf(at), value, first: familiarisation })),
    noise,
    scale,
  );
  return ({ value, sd, n }) => {
    if (used.ok) {
      const error = scale === 'log' ? value * Math.expm1(used.value.value / 100) : used.value.value;
      return { error, errorFrom: adopted === undefined ? 'sessions' : 'adopted' };
    }
    return sd === undefined ? {} : { error: sd / Math.sqrt(n), errorFrom: 'trials' };
  };
}
