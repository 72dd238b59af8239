import { type CheckedRig, checkedRigOf } from '@sthene/core';
import type { RigCheck, RigCorrection, Session } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { isGood } from '../../live/rig-check/standing.ts';

/** The check of a rig that held when a session was measured. */
export interface RigCheckThen {
  /** Tells one check from another: what two sessions share is not between them. */
  readonly id: string;
  readonly rig: CheckedRig;
}

type MeasuredSession = Pick<Session, 'rig' | 'startedAt'>;

/**
 * The last check of the session's rig before the session that says something; undefined where there is none.
 *
 * @param corrected the correction an effort's channels carry, where it was put on afterwards: then its check holds
 */
export async function rigCheckOf(
  lab: OpenLab,
  session: MeasuredSession,
  corrected?: string,
): Promise<RigCheckThen | undefined> {
  if (session.rig !== undefined && corrected !== undefined) {
    const adopted = (await lab.store.rigChecks.corrections(session.rig)).find(({ id }) => id === corrected);
    const check = adopted?.check === undefined ? undefined : await lab.store.rigChecks.get(adopted.check);
    const rig = check && checkedRigOf(check.result, true);
    if (check !== undefined && rig !== undefined) return { id: `${check.id} corrected`, rig };
  }
  const [found] = await rigChecksOf(lab, [session]);
  return found;
}

/** The same for many sessions, each rig looked up once. */
export async function rigChecksOf(
  { store }: OpenLab,
  sessions: readonly MeasuredSession[],
): Promise<(RigCheckThen | undefined)[]> {
  const rigs = [...new Set(sessions.flatMap(({ rig }) => (rig === undefined ? [] : [rig])))];
  const known = new Map(
    await Promise.all(
      rigs.map(async (rig) => {
        const [checks, corrections] = await Promise.all([store.rigChecks.ofRig(rig), store.rigChecks.corrections(rig)]);
        return [rig, { checks, corrections }] as const;
      }),
    ),
  );
  return sessions.map(({ rig, startedAt }) => {
    const own = rig === undefined ? undefined : known.get(rig);
    return own && checkAt(own.checks, own.corrections, startedAt);
  });
}

/** A check that failed says something only where the correction from it was in force. */
function checkAt(
  checks: readonly RigCheck[],
  corrections: readonly RigCorrection[],
  when: string,
): RigCheckThen | undefined {
  const inForce = corrections.findLast(({ at }) => at <= when);
  const isCorrected = ({ id }: RigCheck): boolean => inForce?.check === id && inForce.plates.length > 0;
  const check = checks.findLast((one) => one.at <= when && (isGood(one) || isCorrected(one)));
  const rig = check && checkedRigOf(check.result, isCorrected(check));
  if (check === undefined || rig === undefined) return undefined;
  return { id: isCorrected(check) ? `${check.id} corrected` : check.id, rig };
}
