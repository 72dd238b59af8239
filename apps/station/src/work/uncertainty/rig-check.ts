import type { CheckedRig } from '@sthene/core';
import type { Session } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';

/** The check of a rig that held when a session was measured. */
export interface RigCheckThen {
  /** Tells one check from another: what two sessions share is not between them. */
  readonly id: string;
  readonly rig: CheckedRig;
}

/**
 * The last check of the session's rig before the session. No lab keeps such checks yet, so none is known: the parts a check would tell are
 * named as not known everywhere.
 */
export async function rigCheckOf(
  _lab: OpenLab,
  _session: Pick<Session, 'rig' | 'startedAt'>,
): Promise<RigCheckThen | undefined> {
  return undefined;
}
