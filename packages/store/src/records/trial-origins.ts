import type { UtcInstant } from '@sthene/core';
import { addRecord, changeRecord } from '../changes.ts';
import type { TrialOriginRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import type { Actor } from '../ports.ts';
import { inPieces } from '../queries/in-pieces.ts';
import type { Scope } from '../scope.ts';
import { finite, instant } from '../values.ts';
import { type RecordShape, recordTable } from './record-table.ts';

/** Where a live trial came from: which samples of which capture, on whose turn, whoever it is given to later. */
export interface TrialOrigin {
  readonly id: string;
  readonly revision: number;
  readonly trial: string;
  readonly capture: string;
  readonly entry?: string;
  /** Samples of the capture's stream. */
  readonly span: { readonly start: number; readonly end: number };
  /** When the effort ended, by the station's wall clock. */
  readonly endedAt: UtcInstant;
  /** How it ended, zeros, unloaded means and the like, by name. */
  readonly facts: Readonly<Record<string, unknown>>;
}

export interface TrialOriginRepository {
  /** Throws `already-there` when these samples of the capture have a trial. */
  add(origin: Omit<TrialOrigin, 'id' | 'revision'>, actor: Actor): Promise<TrialOrigin>;
  /** Keeps what became known later, as the mean of the empty plates after the turn. */
  review(id: string, facts: TrialOrigin['facts'], actor: Actor): Promise<TrialOrigin>;
  ofTrial(trial: string): Promise<TrialOrigin | undefined>;
  /** By trial; a trial that was not made live has none. */
  ofTrials(trials: readonly string[]): Promise<Map<string, TrialOrigin>>;
  /** In the order of their samples. */
  ofCapture(capture: string): Promise<TrialOrigin[]>;
  /** In the order of time. */
  ofEntry(entry: string): Promise<TrialOrigin[]>;
}

const shape: RecordShape<TrialOrigin, 'trialOrigins'> = {
  kind: 'origin',
  table: 'trialOrigins',
  check: (origin) => {
    finite('span.start', origin.span.start);
    finite('span.end', origin.span.end);
    instant('endedAt', origin.endedAt);
  },
  toRow: (origin): TrialOriginRow => ({
    id: origin.id,
    revision: origin.revision,
    trialId: origin.trial,
    captureId: origin.capture,
    entryId: origin.entry ?? null,
    spanStart: origin.span.start,
    spanEnd: origin.span.end,
    endedAt: origin.endedAt,
    facts: toJson(origin.facts),
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    trial: row.trialId,
    capture: row.captureId,
    ...(row.entryId === null ? {} : { entry: row.entryId }),
    span: { start: row.spanStart, end: row.spanEnd },
    endedAt: row.endedAt as UtcInstant,
    facts: fromJson<Record<string, unknown>>(row.facts),
  }),
};

export function trialOriginRepository(scope: Scope): TrialOriginRepository {
  const table = recordTable(shape);
  const all = () => scope.db.selectFrom('trialOrigins').selectAll();
  return {
    add: (origin, actor) => addRecord(scope, table, { ...origin, id: scope.ids.next(), revision: 1 }, actor),
    review: (id, facts, actor) => changeRecord(scope, table, id, { facts }, actor, { action: 'origin.review' }),
    async ofTrial(trial) {
      const row = await all().where('trialId', '=', trial).executeTakeFirst();
      return row && shape.fromRow(row);
    },
    async ofTrials(trials) {
      const rows = await inPieces(trials, (piece) => all().where('trialId', 'in', piece).execute());
      return new Map(rows.map((row) => [row.trialId, shape.fromRow(row)]));
    },
    ofCapture: async (capture) =>
      (await all().where('captureId', '=', capture).orderBy('spanStart').execute()).map(shape.fromRow),
    ofEntry: async (entry) =>
      (await all().where('entryId', '=', entry).orderBy('endedAt').orderBy('spanStart').execute()).map(shape.fromRow),
  };
}
