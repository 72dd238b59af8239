import { meanOf, sdOf } from '@sthene/core';
import type { MetricPoint } from '@sthene/store';
import { groupBy } from '../group-by.ts';

/** A session's value of a metric: the mean of its maximal efforts that count. */
export interface SessionOfMetric {
  readonly person: string;
  readonly session: string;
  /** Of a ratio: every session it is made of, in the order of its sides. */
  readonly sessions?: readonly string[];
  readonly at: string;
  readonly value: number | undefined;
  readonly unit: string | undefined;
  readonly n: number;
  readonly maximal: number;
  readonly sd: number | undefined;
  /** Hashes of the methods behind the value. */
  readonly methods: readonly string[];
  /** Ids of the results the value is the mean of. */
  readonly results: readonly string[];
  /** The person's first session of the test. */
  readonly familiarisation: boolean;
}

/** What a session is by itself; which one is a person's first, only all of them tell. */
export type SessionAlone = Omit<SessionOfMetric, 'familiarisation'>;

/**
 * Sessions of a metric's history, in its order (oldest first). Submaximal efforts and efforts that do not count never enter; trials of
 * another unit than the first are left out.
 */
export const sessionValues = (points: readonly MetricPoint[]): SessionOfMetric[] => withFirsts(sessionsAlone(points));

/** Each session of some trials by itself, in the order of their first trials. */
export const sessionsAlone = (points: readonly MetricPoint[]): SessionAlone[] =>
  [...groupBy(points, ({ session }) => session).values()].map(sessionAlone);

/** @param own trials of one session, at least one */
function sessionAlone(own: readonly MetricPoint[]): SessionAlone {
  const first = own[0] as MetricPoint;
  const maximal = own.filter(({ effort }) => effort === 'maximal');
  const counting = maximal.flatMap(({ standing, metric, method, result }) =>
    standing === 'counts' && metric !== undefined && 'value' in metric ? [{ ...metric, method, result }] : [],
  );
  const unit = counting[0]?.unit;
  const alike = counting.filter((one) => one.unit === unit);
  const values = alike.map(({ value }) => value);
  return {
    person: first.person,
    session: first.session,
    at: first.at,
    value: values.length === 0 ? undefined : meanOf(values),
    unit,
    n: values.length,
    maximal: maximal.length,
    sd: values.length < 2 ? undefined : sdOf(values),
    methods: [...new Set(alike.flatMap(({ method = '' }) => method))].sort(),
    results: alike.flatMap(({ result = [] }) => result),
  };
}

/** @param sessions oldest first, some of them perhaps with what held before others came */
export function withFirsts(sessions: readonly (SessionAlone & { familiarisation?: boolean })[]): SessionOfMetric[] {
  const seen = new Set<string>();
  return sessions.map((one) => {
    const familiarisation = !seen.has(one.person);
    seen.add(one.person);
    return one.familiarisation === familiarisation ? (one as SessionOfMetric) : { ...one, familiarisation };
  });
}
