import type { AthleteChange, AthleteView } from '@sthene/contract';
import { metricRegistry } from '@sthene/core';
import {
  errorFor,
  type Followed,
  follow,
  noiseOfTest,
  type OwnSession,
  percentOfLogs,
  references,
  type Scale,
  type SessionValue,
} from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { listPeople } from '../people.ts';
import { type SessionOfMetric, sessionValues } from './session-values.ts';
import { type Circumstances, unlikeness } from './unlike.ts';

const usualMetric = 'peak_force';
const millisecondsOfDay = 86_400_000;
const dayOf = (instant: string): number => Date.parse(instant) / millisecondsOfDay;

interface Asked {
  readonly test?: string | undefined;
  readonly metric?: string | undefined;
}

/** One metric of an athlete over time, the noise of the test in this lab, and what may be said of the newest session. */
export async function athleteView(lab: OpenLab, id: string, asked: Asked): Promise<AthleteView> {
  const person = (await listPeople(lab)).find((one) => one.id === id);
  if (person === undefined) throw problems.notFound('athlete');
  const definition = metricRegistry.get(asked.metric ?? usualMetric);
  if (definition === undefined) throw problems.notFound('metric');
  const tests = await testsOf(lab, id);
  const test = tests.find((one) => one.id === asked.test)?.id ?? tests[0]?.id;
  const { formula, source, title, better } = definition;
  const metric = { id: definition.id, title, unit: definition.unit, formula, source, better };
  const base = {
    ...{ person, tests, metrics: metricRegistry.all.map((one) => ({ id: one.id, title: one.title })) },
    ...(test === undefined ? {} : { test }),
  };
  if (test === undefined)
    return { ...base, metric, sessions: [], scale: 'unit', noise: {}, changes: [], reason: 'too-few-values' };
  const everyone = sessionValues(
    await lab.store.results.history({ of: 'everyone', metric: metric.id, protocol: test }),
  );
  const own = everyone.filter((one) => one.person === id);
  const unit = own.find((one) => one.unit !== undefined)?.unit ?? metric.unit;
  const known = await Promise.all(own.map((one) => circumstances(lab, one)));
  return {
    ...base,
    metric: { ...metric, unit },
    ...(await judged(lab, { everyone, own, known, unit, better })),
  };
}

async function testsOf(lab: OpenLab, id: string): Promise<AthleteView['tests']> {
  const counts = new Map<string, number>();
  let after: string | undefined;
  do {
    const page = await lab.store.sessions.list({ person: id, limit: 500, ...(after === undefined ? {} : { after }) });
    for (const { session } of page.items) counts.set(session.protocol.id, (counts.get(session.protocol.id) ?? 0) + 1);
    after = page.next;
  } while (after !== undefined);
  return [...counts].map(([test, sessions]) => ({ id: test, sessions })).sort((a, b) => b.sessions - a.sessions);
}

async function circumstances(lab: OpenLab, one: SessionOfMetric): Promise<Circumstances> {
  const session = await lab.store.sessions.get(one.session);
  if (session === undefined) throw problems.notFound('session');
  return { session, methods: one.methods };
}

interface Known {
  readonly everyone: readonly SessionOfMetric[];
  readonly own: readonly SessionOfMetric[];
  readonly known: readonly Circumstances[];
  readonly unit: string;
  readonly better: 'higher' | 'lower' | 'neither';
}

/** Forces and rates are judged in logs, everything else in its unit. */
const isForce = (unit: string): boolean => /^N(\W|$)/.test(unit) || /^(kgf|lbf)/.test(unit);

async function judged(lab: OpenLab, { everyone, own, known, unit, better }: Known) {
  const alike = everyone.filter((one) => one.unit === unit && one.value !== undefined && !one.familiarisation);
  const positive = [...alike, ...own].every(({ value }) => value === undefined || value > 0);
  const scale: Scale = isForce(unit) && positive ? 'log' : 'unit';
  const sexes = new Map((await lab.store.people.list()).map((one) => [one.id, one.sex ?? '']));
  const noise = noiseOfTest(
    alike.map(
      (one): SessionValue => ({
        person: one.person,
        day: dayOf(one.at),
        value: one.value as number,
        group: sexes.get(one.person) ?? '',
      }),
    ),
    scale,
  );
  const at = own.flatMap((one, i) => (one.value === undefined || one.unit !== unit ? [] : [i]));
  const sessions = at.map((i): OwnSession => {
    const one = own[i] as SessionOfMetric;
    return { day: dayOf(one.at), value: one.value as number, first: one.familiarisation };
  });
  const { own: ownError, used } = errorFor(sessions, noise, scale);
  const worthwhile = noise.ok && noise.value.worthwhile.ok ? noise.value.worthwhile.value : undefined;
  const newest = at.at(-1);
  const unlikeNewest = (i: number): string[] =>
    newest === undefined || i === newest ? [] : unlikeness(known[newest] as Circumstances, known[i] as Circumstances);
  const found = references.map((reference) => {
    if (!used.ok) return used;
    const given = {
      scale,
      error: used.value,
      worthwhile: worthwhile ?? 0,
      better: better === 'lower' ? 'less' : 'more',
    } as const;
    const behind = follow(sessions, reference, { ...given, unlike: false });
    if (!behind.ok) return behind;
    const unlike = [...new Set(behind.value.sessions.flatMap((one) => unlikeNewest(at[one] as number)))];
    const followed = unlike.length === 0 ? behind : follow(sessions, reference, { ...given, unlike: true });
    return followed.ok
      ? {
          ok: true as const,
          value: changeOf(followed.value, { scale, unlike, ids: at.map((i) => (own[i] as SessionOfMetric).session) }),
        }
      : followed;
  });
  const changes = found.flatMap((one) => (one.ok ? [one.value] : []));
  const failed = found.find((one) => !one.ok);
  const ranked = sessions
    .map(({ value }, i) => ({ value, id: own[at[i] as number]?.session as string }))
    .sort((a, b) => (better === 'lower' ? a.value - b.value : b.value - a.value));
  return {
    sessions: own.map((one, i) => ({
      id: one.session,
      at: one.at,
      ...(one.value === undefined ? {} : { value: one.value }),
      ...(one.unit === undefined ? {} : { unit: one.unit }),
      ...{ n: one.n, maximal: one.maximal, familiarisation: one.familiarisation },
      ...(one.sd === undefined ? {} : { sd: one.sd }),
      unlike: unlikeNewest(i),
    })),
    scale,
    noise: {
      ...(noise.ok ? { squad: squadNoise(noise.value) } : {}),
      ...(ownError.ok ? { own: ownError.value } : {}),
      ...(used.ok ? { used: used.value } : {}),
      ...(worthwhile === undefined ? {} : { worthwhile }),
    },
    ...(ranked[0] === undefined || better === 'neither' ? {} : { best: ranked[0].id }),
    changes,
    ...(changes.length > 0 || failed === undefined || failed.ok ? {} : { reason: failed.reason }),
  } satisfies Partial<AthleteView>;
}

function squadNoise({ error, interval: { low, high, level }, people, sessions, trends }: NoiseValue) {
  return { error, interval: { low, high, level }, people, sessions, trends };
}
type NoiseValue = Extract<ReturnType<typeof noiseOfTest>, { ok: true }>['value'];

/** A followed change in the unit of the metric; on the log scale about the reference. */
function changeOf(
  { reference, sessions, value, change, chance, confirmable, halve }: Followed,
  {
    scale,
    unlike,
    ids,
  }: { readonly scale: Scale; readonly unlike: readonly string[]; readonly ids: readonly string[] },
): AthleteChange {
  const base = scale === 'log' ? Math.exp(value / 100) : value;
  const inUnit = (difference: number) => (scale === 'log' ? (base * percentOfLogs(difference)) / 100 : difference);
  const widest = change.intervals[2];
  const half = (widest.high - widest.low) / 2;
  return {
    reference,
    band: { low: base + inUnit(-half), high: base + inUnit(half), level: widest.level },
    sessions: sessions.map((i) => ids[i] as string),
    value: base,
    difference: inUnit(change.difference),
    ...(scale === 'log' ? { percent: percentOfLogs(change.difference) } : {}),
    intervals: change.intervals.map(({ low, high, level }) => ({ low: inUnit(low), high: inUnit(high), level })),
    ...{ more: change.more, less: change.less, within: change.within },
    detectable: inUnit(change.detectable),
    ...{ word: change.word, alike: change.alike, unlike: [...unlike] },
    byChance: chance.sure,
    confirmable: inUnit(confirmable),
    ...(halve === undefined ? {} : { halve }),
  };
}
