import { have, lack, type Outcome } from '../../outcome.ts';
import type { Estimate } from '../interval.ts';
import { type MixedModel, mixedModel } from '../mixed/index.ts';
import { type ErrorOfTest, typicalErrorInterval, worthwhileShare } from '../reliability/index.ts';

/** One athlete's value of one session. */
export interface SessionValue {
  readonly person: string;
  /** Days since any common day. */
  readonly day: number;
  readonly value: number;
  /** Group whose people are alike (sex, age band); people of different groups are not compared. */
  readonly group?: string;
}

/** How much a test's values differ without a reason, and how much they differ between people. */
export interface TestNoise {
  /** `log`: everything is of 100 ln x; `unit`: of the value itself. */
  readonly scale: Scale;
  /** Between-session error of one session's value. */
  readonly error: ErrorOfTest;
  readonly interval: Estimate;
  /** SD of true levels within a group; zero where the model finds none. */
  readonly spread: number;
  /** 0.2 of that spread; `no-spread` where there is none. */
  readonly worthwhile: Outcome<number>;
  readonly people: number;
  readonly sessions: number;
  /** Whether each athlete has a trend of their own in the model, or all the same. */
  readonly trends: 'own' | 'common';
}

export type Scale = 'log' | 'unit';

/** A value on the scale it is judged on. */
export const onScale = (scale: Scale, value: number): number => (scale === 'log' ? 100 * Math.log(value) : value);

/** Trends of their own need so many athletes with so many sessions each. */
const trendPeople = 5;
const trendSessions = 4;
const daysOfYear = 365.25;

/**
 * The between-session typical error and the spread of levels from a squad's history.
 *
 * Mixed model by REML: value = group + trend + level of the athlete + error; each athlete has a trend of their own where five or more
 * have four or more sessions, so that training is not taken for noise. TE is the residual SD with Satterthwaite's degrees of freedom,
 * the spread the SD of levels at the middle of the time looked at.
 *
 * @returns the reasons of the mixed model; `not-positive` on the log scale with a value of zero or less
 */
export function noiseOfTest(values: readonly SessionValue[], scale: Scale): Outcome<TestNoise> {
  if (values.length === 0) return lack('too-few-values');
  if (scale === 'log' && values.some(({ value }) => value <= 0)) return lack('not-positive');
  const days = values.map(({ day }) => day);
  const middle = (Math.min(...days) + Math.max(...days)) / 2;
  const years = days.map((day) => (day - middle) / daysOfYear);
  const groups = [...new Set(values.map(({ group = '' }) => group))].sort().slice(1);
  const fixed = [
    ...(years.some((year) => year !== 0) ? [{ name: 'year', values: years }] : []),
    ...groups.map((name) => ({ name, values: values.map(({ group = '' }) => (group === name ? 1 : 0)) })),
  ];
  const columns = {
    y: values.map(({ value }) => onScale(scale, value)),
    person: values.map(({ person }) => person),
    fixed,
  };
  const own = mayHaveTrends(values)
    ? mixedModel({ ...columns, random: { kind: 'person-and-slope', time: years } })
    : undefined;
  if (own?.ok && !own.value.singular) return have(noiseFrom(own.value, scale, 'own'));
  const common = mixedModel({ ...columns, random: { kind: 'person' } });
  return common.ok ? have(noiseFrom(common.value, scale, 'common')) : common;
}

function mayHaveTrends(values: readonly SessionValue[]): boolean {
  const days = new Map<string, Set<number>>();
  for (const { person, day } of values) days.set(person, (days.get(person) ?? new Set()).add(day));
  return [...days.values()].filter(({ size }) => size >= trendSessions).length >= trendPeople;
}

function noiseFrom(model: MixedModel, scale: Scale, trends: TestNoise['trends']): TestNoise {
  const spread = Math.sqrt(model.level);
  return {
    ...{ scale, spread, trends },
    error: model.residual,
    interval: typicalErrorInterval(model.residual),
    worthwhile: spread > 0 ? have(worthwhileShare * spread) : lack('no-spread'),
    people: model.people,
    sessions: model.values,
  };
}
