import { meanOf, sdOf } from '@sthene/core';
import type { MetricPoint } from '@sthene/store';

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

/**
 * Sessions of a metric's history, in its order (oldest first). Submaximal efforts and efforts that do not count never enter; trials of
 * another unit than the first are left out.
 */
export function sessionValues(points: readonly MetricPoint[]): SessionOfMetric[] {
  const bySession = new Map<string, MetricPoint[]>();
  for (const point of points) bySession.set(point.session, [...(bySession.get(point.session) ?? []), point]);
  const seen = new Set<string>();
  return [...bySession.values()].map((own) => {
    const first = own[0] as MetricPoint;
    const maximal = own.filter(({ effort }) => effort === 'maximal');
    const counting = maximal.flatMap(({ standing, metric, method, result }) =>
      standing === 'counts' && metric !== undefined && 'value' in metric ? [{ ...metric, method, result }] : [],
    );
    const unit = counting[0]?.unit;
    const alike = counting.filter((one) => one.unit === unit);
    const values = alike.map(({ value }) => value);
    const familiarisation = !seen.has(first.person);
    seen.add(first.person);
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
      familiarisation,
    };
  });
}
