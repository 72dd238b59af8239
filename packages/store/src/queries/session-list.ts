import { headlineMetric } from '@sthene/core';
import type { Kysely, SelectQueryBuilder } from 'kysely';
import { sql } from 'kysely';
import type { Database, PersonRow, SessionRow } from '../database.ts';
import type { Standing } from '../decisions/effective.ts';
import { StoreError } from '../errors.ts';
import { type Session, toSession } from '../records/session.ts';
import { containing, instant, searchWords } from '../values.ts';
import { standingsOfTrials, type TrialStanding } from './standings.ts';

/** Which sessions to list. */
export interface SessionFilter {
  /** One session alone, by its id. */
  readonly session?: string;
  readonly person?: string;
  readonly squad?: string;
  /** Id of the rig it was measured on. */
  readonly rig?: string;
  /** Protocol id, any version. */
  readonly protocol?: string;
  /** Words that all must appear in the person's name or code or in the protocol id. */
  readonly text?: string;
  /** Started at or after. */
  readonly from?: string;
  /** Started before. */
  readonly until?: string;
  /** Only sessions without curves, or only those with; both unless given. Those of an import that was taken back are never listed. */
  readonly resultsOnly?: boolean;
  /** Method hash whose results give verdicts and values; the newest result of all unless given. */
  readonly method?: string;
  /** Metric summed up for each session; the one by which efforts of its test are ranked unless given. */
  readonly metric?: string;
  /** Rows of a page, 1 to 500; 50 unless given. */
  readonly limit?: number;
  /** `next` of the page before. */
  readonly after?: string;
}

/** A session as a list shows it. */
export interface SessionSummary {
  readonly session: Session;
  readonly person: {
    readonly id: string;
    readonly code: string;
    readonly givenName: string;
    readonly familyName: string;
  };
  readonly trials: {
    readonly total: number;
    readonly maximal: number;
    /** Maximal trials by how they stand. */
    readonly byStanding: Readonly<Record<Standing, number>>;
  };
  /** Over the maximal trials that count and have the metric; absent when there is none or their units differ. */
  readonly summary?: { readonly best: number; readonly mean: number; readonly count: number; readonly unit: string };
}

export interface SessionPage {
  /** Newest first; sessions that started at the same instant by id, largest first. */
  readonly items: readonly SessionSummary[];
  /** How many sessions the filter finds on all pages. */
  readonly total: number;
  /** For `after`; absent on the last page. */
  readonly next?: string;
}

/** Lists sessions; verdicts and decisions are read for the page only. */
export async function listSessions(db: Kysely<Database>, filter: SessionFilter): Promise<SessionPage> {
  const limit = filter.limit ?? 50;
  if (!(Number.isInteger(limit) && limit >= 1 && limit <= 500)) {
    throw new StoreError('bad-value', 'limit must be a whole number from 1 to 500.', { field: 'limit' });
  }
  const matching = narrowed(db, filter);
  const { total } = await matching.select(({ fn }) => fn.countAll<number>().as('total')).executeTakeFirstOrThrow();
  let query = matching
    .selectAll('sessions')
    .select(['people.code', 'people.givenName', 'people.familyName'])
    .orderBy('sessions.startedAt', 'desc')
    .orderBy('sessions.id', 'desc')
    .limit(limit + 1);
  if (filter.after !== undefined) {
    const [startedAt, id] = readCursor(filter.after);
    query = query.where(({ or, and, eb }) =>
      or([
        eb('sessions.startedAt', '<', startedAt),
        and([eb('sessions.startedAt', '=', startedAt), eb('sessions.id', '<', id)]),
      ]),
    );
  }
  const rows = await query.execute();
  const shown = rows.slice(0, limit);
  const last = shown.at(-1);
  return {
    items: await summaries(db, shown, filter),
    total,
    ...(rows.length > limit && last !== undefined ? { next: `${last.startedAt}_${last.id}` } : {}),
  };
}

type Joined = SelectQueryBuilder<Database, 'sessions' | 'people', object>;

function narrowed(db: Kysely<Database>, filter: SessionFilter): Joined {
  let query: Joined = db.selectFrom('sessions').innerJoin('people', 'people.id', 'sessions.personId');
  const { session, person, squad, protocol, from, until } = filter;
  if (session !== undefined) query = query.where('sessions.id', '=', session);
  if (person !== undefined) query = query.where('sessions.personId', '=', person);
  if (protocol !== undefined) query = query.where('sessions.protocolId', '=', protocol);
  if (filter.rig !== undefined) query = query.where('sessions.rig', '=', filter.rig);
  if (from !== undefined) query = query.where('sessions.startedAt', '>=', instant('from', from));
  if (until !== undefined) query = query.where('sessions.startedAt', '<', instant('until', until));
  if (filter.resultsOnly !== undefined) query = query.where('sessions.resultsOnly', '=', filter.resultsOnly ? 1 : 0);
  query = query.where('sessions.id', 'not in', (gone) =>
    gone
      .selectFrom('receivedSessions')
      .innerJoin('receivedImports', 'receivedImports.id', 'receivedSessions.importId')
      .select('receivedSessions.sessionId')
      .where('receivedImports.takenBack', '=', 1),
  );
  if (squad !== undefined) {
    query = query.where('sessions.personId', 'in', (members) =>
      members.selectFrom('squadMembers').select('squadMembers.personId').where('squadMembers.squadId', '=', squad),
    );
  }
  for (const word of searchWords(filter.text ?? '')) {
    const pattern = containing(word);
    query = query.where(
      sql<boolean>`(people.search_key like ${pattern} escape '\\' or sessions.protocol_id like ${pattern} escape '\\')`,
    );
  }
  return query;
}

function readCursor(cursor: string): [startedAt: string, id: string] {
  const bar = cursor.indexOf('_');
  return [instant('after', cursor.slice(0, bar)), cursor.slice(bar + 1)];
}

type SummaryRow = SessionRow & Pick<PersonRow, 'code' | 'givenName' | 'familyName'>;

async function summaries(
  db: Kysely<Database>,
  rows: readonly SummaryRow[],
  filter: SessionFilter,
): Promise<SessionSummary[]> {
  if (rows.length === 0) return [];
  const trials = await db
    .selectFrom('trials')
    .select(['id', 'sessionId', 'effort'])
    .where(
      'sessionId',
      'in',
      rows.map((row) => row.id),
    )
    .execute();
  const standings = new Map<string, TrialStanding>();
  for (const [metric, sessions] of sessionsByMetric(rows, filter.metric)) {
    const own = trials.filter((trial) => sessions.has(trial.sessionId)).map((trial) => trial.id);
    const found = await standingsOfTrials(db, own, { method: filter.method, metric });
    for (const [trial, standing] of found) standings.set(trial, standing);
  }
  return rows.map((row) => {
    const own = trials.filter((trial) => trial.sessionId === row.id);
    const maximal = own.filter((trial) => trial.effort === 'maximal').flatMap((trial) => standings.get(trial.id) ?? []);
    const summary = summarise(maximal);
    return {
      session: toSession(row),
      person: { id: row.personId, code: row.code, givenName: row.givenName, familyName: row.familyName },
      trials: { total: own.length, maximal: maximal.length, byStanding: countStandings(maximal) },
      ...(summary === undefined ? {} : { summary }),
    };
  });
}

/** Sessions by the metric that sums them up: the one asked for, else the one by which efforts of their test are ranked. */
function sessionsByMetric(rows: readonly SummaryRow[], asked: string | undefined): Map<string, Set<string>> {
  const groups = new Map<string, Set<string>>();
  for (const { id, protocolId } of rows) {
    const metric = asked ?? headlineMetric(protocolId);
    groups.set(metric, (groups.get(metric) ?? new Set()).add(id));
  }
  return groups;
}

function countStandings(standings: readonly TrialStanding[]): Record<Standing, number> {
  const counts = { counts: 0, 'look-again': 0, repeat: 0, excluded: 0, 'not-analysed': 0 };
  for (const { standing } of standings) counts[standing] += 1;
  return counts;
}

function summarise(standings: readonly TrialStanding[]): SessionSummary['summary'] {
  const values = standings.flatMap(({ standing, metric }) =>
    standing === 'counts' && metric !== undefined && 'value' in metric ? [metric] : [],
  );
  const unit = values[0]?.unit;
  if (unit === undefined || values.some((value) => value.unit !== unit)) return undefined;
  const sum = values.reduce((total, { value }) => total + value, 0);
  const best = Math.max(...values.map(({ value }) => value));
  return { best, mean: sum / values.length, count: values.length, unit };
}
