import type { BatteryView, ProfileFacts, ProfilePoint } from '@sthene/contract';
import { meanOf } from '@sthene/core';
import { forceVelocityProfile, leastLoads, pushOffOf } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { clustersOf, type LoadedSession, loadedKinds, loadedLast, loadedSessions } from './loaded-sessions.ts';
import type { Asked } from './ratios.ts';

type Lack = NonNullable<BatteryView['profile']['lack']>;

/**
 * Force and velocity of jumps with several loads: of the newest day with a loaded jump and the days before it, one session for each
 * load. The push-off is as long as somebody measured it, else as the plates did: from the lowest position to take-off, the mean over the loads.
 *
 * @param given push-off distance, m
 */
export async function profileView(
  lab: OpenLab,
  asked: Asked,
  given: number | undefined,
): Promise<BatteryView['profile']> {
  const sessions = loadedLast(await Promise.all(loadedKinds.map((kind) => loadedSessions(lab, kind, asked))));
  const known = sessions.filter(({ load }) => load !== undefined);
  const loadMissing = sessions.length - known.length;
  const clusters = clustersOf(known, asked.apart);
  const newest = clusters.at(-1) ?? [];
  const lack = (reason: Lack['reason']): Lack => ({ reason, loads: newest.length, needed: leastLoads, loadMissing });
  if (newest.length === 0) return { lack: lack(loadMissing > 0 ? 'loads-not-written' : 'no-loads'), history: [] };
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
