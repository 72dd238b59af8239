import { headlineMetric } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import type { Session } from '../records/session.ts';
import { type Trial, trialsOfSessions } from '../records/trial.ts';
import { grouped } from './grouped.ts';
import { type StandingQuery, standingsOfTrials, type TrialStanding } from './standings.ts';

/** A trial with how it stands. */
export interface StandingTrial {
  readonly trial: Trial;
  readonly standing: TrialStanding;
}

/**
 * All trials of a session in their order, with the metric by which efforts of its test are ranked.
 *
 * @param method picks results by method hash; else the newest of all
 */
export async function standingInSession(
  db: Kysely<Database>,
  { id, protocol }: Pick<Session, 'id' | 'protocol'>,
  method?: string,
): Promise<StandingTrial[]> {
  return standing(db, await trialsOfSessions(db, [id]), { method, metric: headlineMetric(protocol.id) });
}

/** The same of several sessions by session, with no metric: a session without a trial is not among them. */
export async function standingInSessions(
  db: Kysely<Database>,
  sessions: readonly string[],
): Promise<Map<string, StandingTrial[]>> {
  return grouped(await standing(db, await trialsOfSessions(db, sessions)), ({ trial }) => trial.session);
}

async function standing(
  db: Kysely<Database>,
  trials: readonly Trial[],
  query?: StandingQuery,
): Promise<StandingTrial[]> {
  const standings = await standingsOfTrials(
    db,
    trials.map(({ id }) => id),
    query,
  );
  return trials.flatMap((trial) => {
    const found = standings.get(trial.id);
    return found === undefined ? [] : [{ trial, standing: found }];
  });
}
