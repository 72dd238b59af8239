import type { RigView } from '@sthene/contract';
import { type CheckDue, checkDue, type UtcInstant } from '@sthene/core';
import type { RigCheck, RigCorrection } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { showCheckSettings } from './settings.ts';

/** How a rig stands with its checks. */
export interface CheckStanding {
  readonly due: CheckDue;
  /** The newest check. */
  readonly last?: RigCheck;
  /** The correction in force; absent where there is none. */
  readonly inForce?: RigCorrection;
}

/** A check counts from the day it was made unless it failed or said nothing. */
export const isGood = ({ result: { verdict } }: Pick<RigCheck, 'result'>): boolean =>
  verdict === 'passes' || verdict === 'look';

/** The newest check says no, and its own correction was not adopted: whoever adopted it has acted on it. */
export const isFailed = ({ last, inForce }: Omit<CheckStanding, 'due'>): boolean =>
  last?.result.verdict === 'fails' && inForce?.check !== last.id;

/** @param now of the station's clock */
export async function checkStanding(lab: OpenLab, rig: string, now: UtcInstant): Promise<CheckStanding> {
  const { interval } = await showCheckSettings(lab);
  const checks = await lab.store.rigChecks.ofRig(rig);
  const last = checks.at(-1);
  const inForce = await correctionInForce(lab, rig);
  return {
    due: checkDue(checks.findLast(isGood)?.at, interval, now),
    ...(last === undefined ? {} : { last }),
    ...(inForce === undefined ? {} : { inForce }),
  };
}

/** The newest correction of a rig; undefined where there is none or the newest took all back. */
export async function correctionInForce(lab: OpenLab, rig: string): Promise<RigCorrection | undefined> {
  const newest = (await lab.store.rigChecks.corrections(rig)).at(-1);
  return newest === undefined || newest.plates.length === 0 ? undefined : newest;
}

/** The same for a screen. */
export const standingView = ({ due, ...newest }: CheckStanding): NonNullable<RigView['check']> => ({
  standing: due.standing,
  ...(newest.last === undefined ? {} : shortOf(newest.last)),
  ...(due.at === undefined ? {} : { due: due.at }),
  failed: isFailed(newest),
  corrected: newest.inForce?.plates.map(({ plate }) => plate) ?? [],
});

const shortOf = ({ at, result: { verdict, checkedTo } }: RigCheck) => ({ at, verdict, checkedTo });
