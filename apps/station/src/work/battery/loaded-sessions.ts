import type { Session } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { type SessionOfMetric, sessionValues } from '../athlete/session-values.ts';
import { calendarDay, dayAt } from './match.ts';
import type { Asked } from './ratios.ts';

/** A jump with and without loads. */
export interface LoadedKind {
  readonly free: string;
  readonly loaded: string;
  /** Whether the plates can tell the push-off distance. */
  readonly measured: boolean;
}

/** The countermovement jump goes first where both were loaded last on one day. */
export const loadedKinds: readonly LoadedKind[] = [
  { free: 'countermovement-jump', loaded: 'countermovement-jump-loaded', measured: true },
  { free: 'squat-jump', loaded: 'squat-jump-loaded', measured: false },
];

/** A session of one load: height, mass and push-off distance as the plates measured them. */
export interface LoadedSession {
  readonly session: Session;
  readonly test: string;
  /** Undefined where nobody wrote it down; 0 of the jump without any. */
  readonly load: number | undefined;
  readonly height: number;
  readonly n: number;
  readonly mass: number;
  readonly pushOff: number | undefined;
}

/** Sessions of a kind that have a height and a mass, oldest first. */
export async function loadedSessions(
  lab: OpenLab,
  kind: LoadedKind,
  { person, until }: Pick<Asked, 'person' | 'until'>,
): Promise<LoadedSession[]> {
  const both = await Promise.all(
    [kind.free, kind.loaded].map(async (test) => {
      const of = async (metric: string): Promise<Map<string, SessionOfMetric>> => {
        const own = sessionValues(await lab.store.results.history({ of: { person }, metric, protocol: test }));
        return new Map(own.map((one) => [one.session, one]));
      };
      const [heights, masses] = await Promise.all([of('jump_height'), of('system_mass')]);
      const [depths, rises] = kind.measured
        ? await Promise.all([of('countermovement_depth'), of('jump_rise_before_take_off')])
        : [];
      const sessions = await lab.store.sessions.getMany([...heights.keys()]);
      return sessions.flatMap((session): LoadedSession[] => {
        const [height, mass] = [heights.get(session.id), masses.get(session.id)?.value];
        if (height?.value === undefined || mass === undefined) return [];
        if (until !== undefined && dayAt(session.startedAt) > until) return [];
        const { load } = session.setup;
        const [depth, rise] = [depths?.get(session.id)?.value, rises?.get(session.id)?.value];
        return [
          {
            ...{ session, test, height: height.value, n: height.n, mass },
            load: test === kind.free ? 0 : typeof load === 'number' ? load : undefined,
            pushOff: depth === undefined || rise === undefined ? undefined : depth + rise,
          },
        ];
      });
    }),
  );
  return both.flat().sort((a, b) => a.session.startedAt.localeCompare(b.session.startedAt));
}

/**
 * The kind of jump that was loaded last, by the day; a load nobody wrote down makes no profile, so it only decides where no kind has any
 * other. Nothing where no jump was loaded.
 */
export function loadedLast(kinds: readonly (readonly LoadedSession[])[]): readonly LoadedSession[] {
  const last = (sessions: readonly LoadedSession[], counts: (load: number | undefined) => boolean): number => {
    const found = sessions.findLast(({ load }) => load !== 0 && counts(load));
    return found === undefined ? Number.NEGATIVE_INFINITY : calendarDay(found.session.startedAt);
  };
  for (const counts of [(load: number | undefined) => load !== undefined, () => true]) {
    const days = kinds.map((sessions) => last(sessions, counts));
    const day = Math.max(...days);
    if (day > Number.NEGATIVE_INFINITY) return kinds[days.indexOf(day)] ?? [];
  }
  return [];
}

/**
 * Sessions of the days up to each last loaded one, one for each load, lightest first; the clusters oldest first. Of each load it is the newest;
 * the jump without any may be later than that day where there is none before.
 *
 * @param sessions with a known load, oldest first
 */
export function clustersOf(sessions: readonly LoadedSession[], apart: number): LoadedSession[][] {
  const clusters: LoadedSession[][] = [];
  let left = sessions;
  for (;;) {
    const last = left.findLast(({ load }) => load !== 0);
    if (last === undefined) return clusters.reverse();
    const before = (one: LoadedSession) => calendarDay(last.session.startedAt) - calendarDay(one.session.startedAt);
    const near = left.filter((one) => before(one) >= 0 && before(one) <= apart);
    const ofLoads = new Map(near.map((one) => [one.load, one]));
    const later = left.find((one) => one.load === 0 && before(one) < 0 && -before(one) <= apart);
    if (!ofLoads.has(0) && later !== undefined) ofLoads.set(0, later);
    clusters.push([...ofLoads.values()].sort((a, b) => (a.load ?? 0) - (b.load ?? 0)));
    left = left.filter((one) => before(one) > apart);
  }
}
