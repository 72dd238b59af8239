import type { UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import type { EffortKind } from '../records/trial.ts';
import { standingsOfTrials, type TrialStanding } from './standings.ts';

/** Whose metric, and from which tests. */
export interface MetricHistoryQuery {
  readonly of:
    | { readonly person: string }
    | { readonly squad: string }
    /** At most 1000. */
    | { readonly sessions: readonly string[] }
    | 'everyone';
  readonly metric: string;
  /** Protocol id; all protocols unless given (values of different pools are not comparable). */
  readonly protocol?: string;
  /** A recomputation whose candidates stand as if it were adopted. */
  readonly run?: string;
  /** Method hash; the newest result of each trial unless given. */
  readonly method?: string;
}

/** One trial's value of the metric with how the trial stands. Trials whose result lacks the metric have no `metric`. */
export interface MetricPoint extends TrialStanding {
  readonly person: string;
  readonly session: string;
  readonly trial: string;
  readonly position: number;
  readonly effort: EffortKind;
  readonly protocol: { readonly id: string; readonly version: number };
  /** Start of the session. */
  readonly at: UtcInstant;
}

/** Every trial with a result, oldest first, excluded ones too: the caller filters by `standing` and can show the rest. */
export async function metricHistory(db: Kysely<Database>, query: MetricHistoryQuery): Promise<MetricPoint[]> {
  let trials = db
    .selectFrom('trials')
    .innerJoin('sessions', 'sessions.id', 'trials.sessionId')
    .select(['trials.id', 'trials.position', 'trials.effort', 'trials.sessionId'])
    .select(['sessions.personId', 'sessions.protocolId', 'sessions.protocolVersion', 'sessions.startedAt'])
    .orderBy('sessions.startedAt')
    .orderBy('sessions.id')
    .orderBy('trials.position');
  const { of } = query;
  if (of !== 'everyone' && 'person' in of) trials = trials.where('sessions.personId', '=', of.person);
  else if (of !== 'everyone' && 'sessions' in of) {
    if (of.sessions.length === 0) return [];
    trials = trials.where('sessions.id', 'in', of.sessions);
  } else if (of !== 'everyone') {
    trials = trials.where('sessions.personId', 'in', (members) =>
      members.selectFrom('squadMembers').select('squadMembers.personId').where('squadMembers.squadId', '=', of.squad),
    );
  }
  if (query.protocol !== undefined) trials = trials.where('sessions.protocolId', '=', query.protocol);
  const rows = await trials.execute();
  const standings = await standingsOfTrials(
    db,
    rows.map((row) => row.id),
    { method: query.method, run: query.run, metric: query.metric },
  );
  return rows.flatMap((row) => {
    const standing = standings.get(row.id);
    if (standing?.result === undefined) return [];
    return [
      {
        ...standing,
        person: row.personId,
        session: row.sessionId,
        trial: row.id,
        position: row.position,
        effort: row.effort as EffortKind,
        protocol: { id: row.protocolId, version: row.protocolVersion },
        at: row.startedAt as UtcInstant,
      },
    ];
  });
}
