import { type CheckedRig, checkedRigOf } from '@sthene/core';
import type { RigCheck, RigCorrection, Session } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import type { OriginFacts } from '../../live/rig/keep-trial.ts';
import { isGood } from '../../live/rig-check/standing.ts';
import { liveFactsOf } from '../live-facts.ts';

/** The check of a rig that held when a session was measured. */
export interface RigCheckThen {
  /** Tells one check from another: what two sessions share is not between them. */
  readonly id: string;
  readonly rig: CheckedRig;
}

type MeasuredSession = Pick<Session, 'id' | 'rig' | 'startedAt'>;

/**
 * The last check of the session's rig before the session that says something; undefined where there is none.
 *
 * @param corrected the correction an effort's channels carry; where it was put on afterwards, its check holds
 */
export async function rigCheckOf(
  lab: OpenLab,
  session: MeasuredSession,
  corrected: string | undefined,
): Promise<RigCheckThen | undefined> {
  const [found] = await rigChecksOf(lab, [session], async () => corrected);
  return found;
}

/**
 * The same for many sessions, each rig looked up once.
 *
 * @param correctedBy the correction a session's efforts carry, asked for only where one was adopted after the session
 */
export async function rigChecksOf(
  lab: OpenLab,
  sessions: readonly MeasuredSession[],
  correctedBy = ({ id }: MeasuredSession) => correctionOfSession(lab, id),
): Promise<(RigCheckThen | undefined)[]> {
  const { rigChecks } = lab.store;
  const rigs = [...new Set(sessions.flatMap(({ rig }) => (rig === undefined ? [] : [rig])))];
  const known = new Map(
    await Promise.all(
      rigs.map(async (rig) => {
        const [checks, corrections] = await Promise.all([rigChecks.ofRig(rig), rigChecks.corrections(rig)]);
        return [rig, { checks, corrections }] as const;
      }),
    ),
  );
  return Promise.all(
    sessions.map(async (session) => {
      const own = session.rig === undefined ? undefined : known.get(session.rig);
      if (own === undefined) return undefined;
      const { checks, corrections } = own;
      // One that stood already says nothing against a newer check: the session was measured under both.
      const later = corrections.filter(({ at }) => at > session.startedAt);
      const carried = later.length === 0 ? undefined : await correctedBy(session);
      const putOn = later.find(({ id }) => id === carried)?.check;
      return underCorrection(checks.find(({ id }) => id === putOn)) ?? checkAt(checks, corrections, session.startedAt);
    }),
  );
}

/** A check whose correction the values carry. */
function underCorrection(check: RigCheck | undefined): RigCheckThen | undefined {
  const rig = check && checkedRigOf(check.result, true);
  return check === undefined || rig === undefined ? undefined : { id: `${check.id} corrected`, rig };
}

/** The correction a session's efforts carry: that of the last one, which has every correction the others have. */
async function correctionOfSession(lab: OpenLab, session: string): Promise<string | undefined> {
  const last = (await lab.store.trials.ofSession(session)).at(-1);
  return last && correctionOn(await liveFactsOf(lab, last.id));
}

/** The correction an effort's channels carry. */
export const correctionOn = (live: OriginFacts | undefined): string | undefined =>
  live?.channels.find((one) => one.corrected !== undefined)?.corrected?.id;

/** A check that failed says something only where the correction from it was in force. */
function checkAt(
  checks: readonly RigCheck[],
  corrections: readonly RigCorrection[],
  when: string,
): RigCheckThen | undefined {
  const inForce = corrections.findLast(({ at }) => at <= when);
  const isCorrected = ({ id }: RigCheck): boolean => inForce?.check === id && inForce.plates.length > 0;
  const check = checks.findLast((one) => one.at <= when && (isGood(one) || isCorrected(one)));
  if (check === undefined || isCorrected(check)) return underCorrection(check);
  const rig = checkedRigOf(check.result, false);
  return rig && { id: check.id, rig };
}
