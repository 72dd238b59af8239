import type { Kysely } from 'kysely';
import { addRecord, type Changes, changeRecord, type RecordTable } from '../changes.ts';
import type { Database } from '../database.ts';
import { StoreError } from '../errors.ts';
import type { Actor } from '../ports.ts';
import { type StandingTrial, standingInSession, standingInSessions } from '../queries/standing-in-session.ts';
import { type TrialView, viewTrial } from '../queries/trial-view.ts';
import type { ChangeOptions } from '../revisions.ts';
import { inTransaction, type Scope } from '../scope.ts';
import { finite, hash, oneOf, wholeNumber } from '../values.ts';
import type { Session } from './session.ts';
import { effortKinds, type Trial, toTrial, toTrialRow, trialsOfSessions } from './trial.ts';

type TrialFields = Omit<Trial, 'id' | 'revision'>;

/** A trial to add; without a position it comes after the last one of its session. An id of the caller's must never have been used. */
export type NewTrial = Omit<TrialFields, 'position'> & { readonly position?: number; readonly id?: string };

export interface TrialRepository {
  add(trial: NewTrial, actor: Actor): Promise<Trial>;
  change(id: string, changes: Changes<TrialFields>, actor: Actor, options?: ChangeOptions): Promise<Trial>;
  get(id: string): Promise<Trial | undefined>;
  /** How many there are. */
  count(): Promise<number>;
  /** In their order. */
  ofSession(session: string): Promise<Trial[]>;
  /** How each of them stands, in their order, by its newest result. */
  standingIn(session: Pick<Session, 'id' | 'protocol'>): Promise<StandingTrial[]>;
  /** The same of several sessions by session, without a metric; a session without a trial is not among them. */
  standingInMany(sessions: readonly string[]): Promise<Map<string, StandingTrial[]>>;
  /** Trials that use a recording, by id. */
  ofRecording(sha256: string): Promise<Trial[]>;
  /** Everything a screen shows of one trial; `method` picks the result by method hash, else the newest of all. */
  view(id: string, method?: string): Promise<TrialView | undefined>;
}

const table: RecordTable<Trial> = {
  kind: 'trial',
  read: async ({ db }, id) => {
    const row = await db.selectFrom('trials').selectAll().where('id', '=', id).executeTakeFirst();
    return row && toTrial(row);
  },
  check: (trial) => {
    wholeNumber('position', trial.position);
    oneOf('effort', trial.effort, effortKinds);
    if (trial.recording !== undefined) hash('recording', trial.recording);
    if (trial.cue !== undefined) finite('cue', trial.cue);
    if (trial.span !== undefined) {
      finite('span.start', trial.span.start);
      finite('span.end', trial.span.end);
      if (trial.span.start < 0 || trial.span.end <= trial.span.start) {
        throw new StoreError('bad-value', 'span must start at 0 or later and end after its start.', { field: 'span' });
      }
    }
  },
  insert: async ({ db }, trial) => {
    await db.insertInto('trials').values(toTrialRow(trial)).execute();
  },
  update: async ({ db }, trial) => {
    const { id, ...row } = toTrialRow(trial);
    await db.updateTable('trials').set(row).where('id', '=', id).execute();
  },
};

export function trialRepository(scope: Scope): TrialRepository {
  return {
    add: (trial, actor) =>
      inTransaction(scope, async (inner) => {
        const position = trial.position ?? (await lastPosition(inner.db, trial.session)) + 1;
        return addRecord(inner, table, { ...trial, position, id: trial.id ?? scope.ids.next(), revision: 1 }, actor);
      }),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    async get(id) {
      const row = await scope.db.selectFrom('trials').selectAll().where('id', '=', id).executeTakeFirst();
      return row && toTrial(row);
    },
    count: async () => {
      const row = await scope.db
        .selectFrom('trials')
        .select((of) => of.fn.countAll().as('n'))
        .executeTakeFirstOrThrow();
      return Number(row.n);
    },
    ofSession: (session) => trialsOfSessions(scope.db, [session]),
    standingIn: (session) => standingInSession(scope.db, session),
    standingInMany: (sessions) => standingInSessions(scope.db, sessions),
    async ofRecording(sha256) {
      const rows = await scope.db
        .selectFrom('trials')
        .selectAll()
        .where('recordingHash', '=', sha256)
        .orderBy('id')
        .execute();
      return rows.map(toTrial);
    },
    view: (id, method) => viewTrial(scope, id, method),
  };
}

async function lastPosition(db: Kysely<Database>, session: string): Promise<number> {
  const last = await db
    .selectFrom('trials')
    .select('position')
    .where('sessionId', '=', session)
    .orderBy('position', 'desc')
    .limit(1)
    .executeTakeFirst();
  return last?.position ?? 0;
}
