import type { UtcInstant } from '@sthene/core';
import type { RecomputationRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import { hash, instant, oneOf } from '../values.ts';
import type { RecordShape } from './record-table.ts';

export const recomputationStates = ['running', 'paused', 'finished', 'adopted', 'discarded', 'failed'] as const;
export type RecomputationState = (typeof recomputationStates)[number];

/** One run over the archive with another method. What it makes are candidates until it is adopted. */
export interface Recomputation {
  readonly id: string;
  readonly revision: number;
  /** Method hash. */
  readonly method: string;
  /** What is judged again: every trial that has a curve. */
  readonly scope: { readonly of: 'archive' };
  readonly state: RecomputationState;
  readonly startedAt: UtcInstant;
  /** When it was adopted or discarded. */
  readonly endedAt?: UtcInstant;
  /** Why it cannot go on; empty otherwise. */
  readonly words: string;
}

export const recomputationShape: RecordShape<Recomputation, 'recomputations'> = {
  kind: 'recomputation',
  table: 'recomputations',
  check: (run) => {
    hash('method', run.method);
    oneOf('state', run.state, recomputationStates);
    instant('startedAt', run.startedAt);
    if (run.endedAt !== undefined) instant('endedAt', run.endedAt);
  },
  toRow: (run): RecomputationRow => ({
    id: run.id,
    revision: run.revision,
    methodHash: run.method,
    scope: toJson(run.scope),
    state: run.state,
    startedAt: run.startedAt,
    endedAt: run.endedAt ?? null,
    words: run.words,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    method: row.methodHash,
    scope: fromJson<Recomputation['scope']>(row.scope),
    state: row.state as RecomputationState,
    startedAt: row.startedAt as UtcInstant,
    ...(row.endedAt === null ? {} : { endedAt: row.endedAt as UtcInstant }),
    words: row.words,
  }),
};
