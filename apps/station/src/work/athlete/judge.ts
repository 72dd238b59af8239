import type { AthleteChange, AthleteView, FollowRules } from '@sthene/contract';
import {
  errorFor,
  type Followed,
  follow,
  type OwnSession,
  percentOfLogs,
  type Reference,
  referenceSessions,
  references,
  type Scale,
} from '@sthene/core/stats';
import { seasonOf } from '../follow/rules.ts';
import { dayOf, type NoiseHistory } from './history.ts';
import { type BetweenRigs, betweenRigs, shownRigs } from './rigs.ts';
import type { SessionOfMetric } from './session-values.ts';
import { type Circumstances, unlikeness } from './unlike.ts';

type Judged = Pick<AthleteView, 'sessions' | 'scale' | 'noise' | 'best' | 'changes' | 'reason'>;

/**
 * What may be said of one athlete's newest session.
 *
 * @param own the athlete's sessions, oldest first
 * @param known what each of them depended on; of one that is not known nothing is said to differ
 * @param rules when a season begins
 * @param against references to hold it against
 */
export function judge(
  { metric, unit, better, scale, noise, adopted }: NoiseHistory,
  own: readonly SessionOfMetric[],
  known: readonly (Circumstances | undefined)[],
  rules: FollowRules,
  against: readonly Reference[] = references,
): Judged {
  const at = own.flatMap((one, i) => (one.value === undefined || one.unit !== unit ? [] : [i]));
  const sessions = at.map((i): OwnSession => {
    const one = own[i] as SessionOfMetric;
    return { day: dayOf(one.at), value: one.value as number, first: one.familiarisation };
  });
  const ids = at.map((i) => (own[i] as SessionOfMetric).session);
  const { own: ownError, used } = errorFor(sessions, noise, scale);
  const worthwhile = noise.ok && noise.value.worthwhile.ok ? noise.value.worthwhile.value : undefined;
  const newest = at.at(-1);
  const unlikeNewest = (i: number): string[] => {
    const [now, then] = [newest === undefined ? undefined : known[newest], known[i]];
    return i === newest || now === undefined || then === undefined ? [] : unlikeness(now, then);
  };
  const season = newest === undefined ? undefined : seasonOf(rules, (own[newest] as SessionOfMetric).at);
  const found = against.map((reference) => {
    if (!used.ok) return used;
    const direction = better === 'lower' ? 'less' : 'more';
    const given = { scale, error: used.value, worthwhile: worthwhile ?? 0, better: direction, season } as const;
    const behind = referenceSessions(sessions, reference, season).map((one) => at[one] as number);
    const unlike = [...new Set(behind.flatMap(unlikeNewest))];
    const rigs = betweenRigs(
      { id: metric, unit },
      newest === undefined ? undefined : known[newest],
      behind.map((one) => known[one]),
      scale,
      newest === undefined ? Number.NaN : (own[newest]?.value ?? Number.NaN),
    );
    const followed = follow(sessions, reference, { ...given, unlike: unlike.length > 0, rigs: rigs?.standard });
    return followed.ok
      ? { ok: true as const, value: changeOf(followed.value, { scale, unlike, ids, rigs }) }
      : followed;
  });
  const changes = found.flatMap((one) => (one.ok ? [one.value] : []));
  const failed = found.find((one) => !one.ok);
  const best = bestOf(sessions, better);
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
      ...(noise.ok
        ? { squad: { ...squadNoise(noise.value), ...(adopted && { adopted: { at: adopted.at, by: adopted.by } }) } }
        : {}),
      ...(ownError.ok ? { own: ownError.value } : {}),
      ...(used.ok ? { used: used.value } : {}),
      ...(worthwhile === undefined ? {} : { worthwhile }),
    },
    ...(best === undefined ? {} : { best: ids[best] as string }),
    changes,
    ...(changes.length > 0 || failed === undefined || failed.ok ? {} : { reason: failed.reason }),
  };
}

/** Position of the best session, the earlier of equals; none where neither side is better. */
function bestOf(sessions: readonly OwnSession[], better: NoiseHistory['better']): number | undefined {
  if (better === 'neither' || sessions.length === 0) return undefined;
  const sign = better === 'lower' ? -1 : 1;
  return sessions.reduce(
    (best, { value }, i) => (sign * value > sign * (sessions[best] as OwnSession).value ? i : best),
    0,
  );
}

type Noise = Extract<NoiseHistory['noise'], { ok: true }>['value'];
const squadNoise = ({ error, interval: { low, high, level }, people, sessions, trends }: Noise) => ({
  error,
  interval: { low, high, level },
  people,
  sessions,
  trends,
});

interface Shown {
  readonly scale: Scale;
  readonly unlike: readonly string[];
  /** Session ids by position. */
  readonly ids: readonly string[];
  readonly rigs: BetweenRigs | undefined;
}

/** A followed change in the unit of the metric; on the log scale about the reference. */
function changeOf(followed: Followed, { scale, unlike, ids, rigs }: Shown): AthleteChange {
  const { reference, sessions, value, change, chance, confirmable, halve } = followed;
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
    ...shownRigs(rigs, inUnit),
    ...{ word: change.word, alike: change.alike, unlike: [...unlike] },
    byChance: chance.sure,
    confirmable: inUnit(confirmable),
    ...(halve === undefined ? {} : { halve }),
  };
}
