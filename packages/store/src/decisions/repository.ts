import type { UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import { rowHash } from '../audit/records.ts';
import type { Database, DecisionRow } from '../database.ts';
import { StoreError } from '../errors.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { type Scope, type Writing, write } from '../scope.ts';
import { filled, finite, oneOf, written } from '../values.ts';
import { type Decision, type DecisionContent, decisionKinds, type NewDecision } from './decision.ts';
import { effectiveDecisions } from './effective.ts';

export interface DecisionRepository {
  /** Appends a decision. Every kind but a note needs a reason. Throws `not-found`, `bad-value`. */
  add(decision: NewDecision, actor: Actor): Promise<Decision>;
  /** Cancels the latest decision in force, as a further decision; undefined when there is none. */
  undo(trial: string, actor: Actor, reason?: string): Promise<Decision | undefined>;
  /** Cancels the latest undo, as a further decision; undefined when there is none or something was decided since. */
  redo(trial: string, actor: Actor, reason?: string): Promise<Decision | undefined>;
  /** Every decision on a trial, oldest first, cancelled ones included. */
  ofTrial(trial: string): Promise<Decision[]>;
}

export function decisionRepository(scope: Scope): DecisionRepository {
  const append = async (
    writing: Writing,
    content: DecisionContent & { readonly trial: string; readonly reason: string; readonly reverts?: string },
  ): Promise<Decision> => {
    const row: Omit<DecisionRow, 'sequence'> = {
      id: scope.ids.next(),
      trialId: content.trial,
      kind: content.kind,
      payload: toJson(content.payload),
      reason: content.reason,
      reverts: content.reverts ?? null,
      by: writing.actor.by,
      role: writing.actor.role ?? null,
      station: writing.actor.station,
      at: writing.at,
    };
    const sequence = await writing.note({
      action: `decision.${content.kind}`,
      subject: { kind: 'trial', id: content.trial },
      details: { record: row.id, sha256: rowHash(row), ...(row.reverts === null ? {} : { reverts: row.reverts }) },
    });
    await writing.db
      .insertInto('decisions')
      .values({ ...row, sequence })
      .execute();
    return toDecision({ ...row, sequence });
  };
  return {
    add: (decision, actor) =>
      write(scope, actor, async (writing) => {
        check(decision);
        const trial = await writing.db
          .selectFrom('trials')
          .select('id')
          .where('id', '=', decision.trial)
          .executeTakeFirst();
        if (trial === undefined) throw new StoreError('not-found', 'There is no such trial.', { kind: 'trial' });
        return append(writing, decision);
      }),
    undo: (trial, actor, reason = '') =>
      write(scope, actor, async (writing) => {
        const { undoable } = effectiveDecisions(await decisionsOfTrial(writing.db, trial));
        if (undoable === undefined) return writing.unchanged();
        return append(writing, { kind: 'undo', payload: {}, trial, reason, reverts: undoable.id });
      }) as Promise<Decision | undefined>,
    redo: (trial, actor, reason = '') =>
      write(scope, actor, async (writing) => {
        const { redoable } = effectiveDecisions(await decisionsOfTrial(writing.db, trial));
        if (redoable === undefined) return writing.unchanged();
        return append(writing, { kind: 'redo', payload: {}, trial, reason, reverts: redoable.id });
      }) as Promise<Decision | undefined>,
    ofTrial: (trial) => decisionsOfTrial(scope.db, trial),
  };
}

function check(decision: NewDecision): void {
  // The type says so already; what comes from outside may say otherwise.
  oneOf('kind', decision.kind, decisionKinds.slice(0, -2));
  if (decision.kind !== 'note') written('reason', decision.reason);
  if (decision.kind === 'onset-by-hand') finite('payload.index', decision.payload.index);
  if (decision.kind === 'exclude') filled('payload.category', decision.payload.category);
  if (decision.kind === 'note') written('payload.text', decision.payload.text);
}

export async function decisionsOfTrial(db: Kysely<Database>, trial: string): Promise<Decision[]> {
  return (await decisionsOfTrials(db, [trial])).get(trial) ?? [];
}

/** Decisions of several trials by trial id, each oldest first; trials without decisions are absent. */
export async function decisionsOfTrials(
  db: Kysely<Database>,
  trials: readonly string[],
): Promise<Map<string, Decision[]>> {
  const found = new Map<string, Decision[]>();
  if (trials.length === 0) return found;
  const rows = await db
    .selectFrom('decisions')
    .selectAll()
    .where('trialId', 'in', trials)
    .orderBy('sequence')
    .execute();
  for (const row of rows) {
    const list = found.get(row.trialId) ?? [];
    list.push(toDecision(row));
    found.set(row.trialId, list);
  }
  return found;
}

function toDecision(row: DecisionRow): Decision {
  return {
    kind: row.kind,
    payload: fromJson(row.payload),
    id: row.id,
    sequence: row.sequence,
    trial: row.trialId,
    reason: row.reason,
    ...(row.reverts === null ? {} : { reverts: row.reverts }),
    by: row.by,
    ...(row.role === null ? {} : { role: row.role }),
    station: row.station,
    at: row.at as UtcInstant,
  } as Decision;
}
