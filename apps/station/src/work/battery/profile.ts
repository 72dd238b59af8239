import type { BatteryView, ProfileFacts, ProfilePoint } from '@sthene/contract';
import { meanOf } from '@sthene/core';
import { forceVelocityProfile, leastLoads, pushOffOf } from '@sthene/core/stats';
import type { Session } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { labHistory } from '../athlete/history.ts';
import { metricNamed } from '../athlete/metrics.ts';
import { calendarDay } from './match.ts';
import type { Asked } from './ratios.ts';

/** A jump with and without loads. */
const kinds = [
  { free: 'countermovement-jump', loaded: 'countermovement-jump-loaded' },
  { free: 'squat-jump', loaded: 'squat-jump-loaded' },
] as const;

/** A session of one load: height, mass and way of the push-off as the plates measured them. */
interface LoadedSession {
  readonly session: Session;
  readonly test: string;
  readonly load: number | undefined;
  readonly height: number;
  readonly n: number;
  readonly mass: number;
  readonly pushOff: number | undefined;
}

/**
 * Force and velocity of jumps with several loads: of the newest day with a loaded jump and the days before it, one session for each
 * load. The push-off is as long as somebody measured it, else as the plates did: from the lowest position to take-off, the mean over the loads.
 *
 * @param given way of the push-off, m
 */
export async function profileView(
  lab: OpenLab,
  asked: Asked,
  given: number | undefined,
): Promise<BatteryView['profile']> {
  const found = await Promise.all(kinds.map((kind) => sessionsOf(lab, kind, asked)));
  const loaded = found.find((sessions) => sessions.some(({ load }) => load !== 0)) ?? [];
  const known = loaded.filter(({ load }) => load !== undefined);
  const loadMissing = loaded.length - known.length;
  const clusters = clustersOf(known, asked.apart);
  const newest = clusters.at(-1) ?? [];
  const lack = (reason: 'no-loads' | 'too-few-loads' | 'no-push-off' | 'no-fit') => ({
    ...{ reason, loads: newest.length, needed: leastLoads, loadMissing },
  });
  if (newest.length === 0) return { lack: lack('no-loads'), history: [] };
  const facts = clusters.flatMap((one) => factsOf(one, given) ?? []);
  const current = factsOf(newest, given);
  if (current === undefined) return { lack: lack('no-push-off'), history: [] };
  return {
    current,
    ...(current.line !== undefined ? {} : { lack: lack(newest.length < leastLoads ? 'too-few-loads' : 'no-fit') }),
    history: facts.flatMap(({ at, points, line }) =>
      line === undefined
        ? []
        : [{ at, loads: points.length, f0: line.f0, v0: line.v0, powerMax: line.powerMax, r2: line.r2 }],
    ),
  };
}

async function sessionsOf(
  lab: OpenLab,
  kind: (typeof kinds)[number],
  { person, until }: Asked,
): Promise<LoadedSession[]> {
  const both = await Promise.all(
    [kind.free, kind.loaded].map(async (test) => {
      const of = async (metric: string) => {
        const { everyone } = await labHistory(lab, test, metricNamed(metric, test), person);
        return new Map(everyone.filter((one) => one.person === person).map((one) => [one.session, one]));
      };
      const [heights, masses] = await Promise.all([of('jump_height'), of('system_mass')]);
      const [depths, rises] =
        kind.free === 'squat-jump'
          ? []
          : await Promise.all([of('countermovement_depth'), of('jump_rise_before_take_off')]);
      const sessions = await lab.store.sessions.getMany([...heights.keys()]);
      return sessions.flatMap((session): LoadedSession[] => {
        const [height, mass] = [heights.get(session.id), masses.get(session.id)?.value];
        if (height?.value === undefined || mass === undefined) return [];
        if (until !== undefined && session.startedAt.slice(0, 10) > until) return [];
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

/** Sessions of the days up to each last loaded one, one for each load (the newest), lightest first; the clusters oldest first. */
function clustersOf(sessions: readonly LoadedSession[], apart: number): LoadedSession[][] {
  const clusters: LoadedSession[][] = [];
  let left = sessions;
  for (;;) {
    const last = left.findLast(({ load }) => load !== 0);
    if (last === undefined) return clusters.reverse();
    const day = calendarDay(last.session.startedAt);
    const near = left.filter(({ session, load }) => {
      const before = day - calendarDay(session.startedAt);
      // The unloaded jump of a profile may also come after the loads.
      return before <= apart && (before >= 0 || (load === 0 && -before <= apart));
    });
    const ofLoads = new Map(near.map((one) => [one.load, one]));
    clusters.push([...ofLoads.values()].sort((a, b) => (a.load ?? 0) - (b.load ?? 0)));
    left = left.filter(({ session }) => calendarDay(session.startedAt) < day - apart);
  }
}

function factsOf(cluster: readonly LoadedSession[], given: number | undefined): ProfileFacts | undefined {
  const measured = cluster.flatMap(({ pushOff }) => pushOff ?? []);
  const pushOff = given ?? (measured.length === 0 ? undefined : meanOf(measured));
  if (pushOff === undefined || !(pushOff > 0)) return undefined;
  const points = cluster.map(({ session, test, load = 0, height, n, mass }): ProfilePoint => {
    const { force, velocity } = pushOffOf(mass, height, pushOff, session.gravity);
    return { load, test, session: session.id, at: session.startedAt, height, n, force, velocity };
  });
  const at = points
    .map((one) => one.at)
    .sort()
    .at(-1) as string;
  const line = forceVelocityProfile(points);
  return {
    ...{ at, points, pushOff, pushOffFrom: given === undefined ? 'plates' : 'given' },
    ...(line.ok ? { line: lineOf(line.value) } : {}),
  };
}

type Line = Extract<ReturnType<typeof forceVelocityProfile>, { ok: true }>['value'];
function lineOf({ f0, v0, powerMax, slope, r2, accepted, intervals }: Line): NonNullable<ProfileFacts['line']> {
  return { f0, v0, powerMax, slope, r2, accepted, intervals };
}
