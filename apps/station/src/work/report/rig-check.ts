import type { RigCheckFacts } from '@sthene/report';
import type { Session } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';

/** The newest check of a rig that had been made by an instant. */
async function checkOf({ store }: OpenLab, rig: string, until: string): Promise<RigCheckFacts | undefined> {
  const check = (await store.rigChecks.ofRig(rig)).findLast(({ at }) => at <= until);
  if (check === undefined) return undefined;
  const { at, result } = check;
  const name = (await store.rigs.get(rig))?.name ?? rig;
  return { rig: name, at, verdict: result.verdict, checkedTo: result.checkedTo };
}

/** The check that stood when a session was measured; undefined where its rig is not known or was not checked. */
export const checkOfSession = async (lab: OpenLab, { rig, startedAt }: Session): Promise<RigCheckFacts | undefined> =>
  rig === undefined ? undefined : checkOf(lab, rig, startedAt);

/** The checks of the rigs of some sessions, each the newest before the last session on it. */
export async function checksOfSessions(lab: OpenLab, sessions: readonly Session[]): Promise<RigCheckFacts[]> {
  const last = new Map<string, string>();
  for (const { rig, startedAt } of sessions)
    if (rig !== undefined && startedAt > (last.get(rig) ?? '')) last.set(rig, startedAt);
  const found = await Promise.all([...last].map(([rig, until]) => checkOf(lab, rig, until)));
  return found.flatMap((one) => one ?? []);
}
