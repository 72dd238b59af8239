import { headlineMetric } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import type { Session } from '../records/session.ts';
import { type Trial, trialsOfSession, trialsOfSessions } from '../records/trial.ts';
import { type StandingQuery, standingsOfTrials, type TrialStanding } from './standings.ts';

/** A trial with how it stands. */
export interface StandingTrial {
  readonly trial: Trial;
  readonly standing: TrialStanding;
}

/** All trials of a session in their order, with the metric by which efforts of its test are ranked; `method` picks results by method hash, else the newest of all. */
export async function standingInSession(
  db: Kysely<Database>,
  { id, protocol }: Pick<Session, 'id' | 'protocol'>,
  method?: string,
): Promise<StandingTrial[]> {
  return standing(db, await trialsOfSession(db, id), { method, metric: headlineMetric(protocol.id) });
}

/** The same of several sessions by session, with no metric: a session without a trial is not among them. */
export async function standingInSessions(
  db: Kysely<Database>,
  sessions: readonly string[],
): Promise<Map<string, StandingTrial[]>> {
  const found = new Map<string, StandingTrial[]>();
  for (const one of await standing(db, await trialsOfSessions(db, sessions))) {
    const own = found.get(one.trial.session);
    if (own === undefined) found.set(one.trial.session, [one]);
    else own.push(one);
  }
  return found;
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
