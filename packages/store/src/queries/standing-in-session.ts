import { headlineMetric } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import type { Session } from '../records/session.ts';
import { type Trial, trialsOfSession } from '../records/trial.ts';
import { standingsOfTrials, type TrialStanding } from './standings.ts';

/** A trial with how it stands. */
export interface StandingTrial {
  readonly trial: Trial;
  /** With the metric by which efforts of the test are ranked. */
  readonly standing: TrialStanding;
}

/** All trials of a session in their order; `method` picks results by method hash, else the newest of all. */
export async function standingInSession(
  db: Kysely<Database>,
  { id, protocol }: Pick<Session, 'id' | 'protocol'>,
  method?: string,
): Promise<StandingTrial[]> {
  const trials = await trialsOfSession(db, id);
  const standings = await standingsOfTrials(
    db,
    trials.map((trial) => trial.id),
    { method, metric: headlineMetric(protocol.id) },
  );
  return trials.flatMap((trial) => {
    const standing = standings.get(trial.id);
    return standing === undefined ? [] : [{ trial, standing }];
  });
}
