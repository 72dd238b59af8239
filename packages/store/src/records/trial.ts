import type { ForceSelection, SampleSpan } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database, TrialRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';
import { inPieces } from '../queries/in-pieces.ts';

export const effortKinds = ['maximal', 'submaximal', 'familiarisation'] as const;
export type EffortKind = (typeof effortKinds)[number];

/** One effort of a session. */
export interface Trial {
  readonly id: string;
  readonly revision: number;
  readonly session: string;
  /** 1, 2, 3, ... in the order they were done; unique within the session. */
  readonly position: number;
  readonly effort: EffortKind;
  /** SHA-256 of the recording's original file; absent in a session of results only. */
  readonly recording?: string;
  /** Which of several recordings in one file. */
  readonly recordingLabel?: string;
  /** How the file has to be read where it does not say so itself: delimiter, rate, time column and the like. */
  readonly reading?: Readonly<Record<string, string | number>>;
  readonly forceSelection?: ForceSelection;
  /** Piece of the recording this effort was taken from; absent for the whole. */
  readonly span?: SampleSpan;
  /** When the cue sounded, in samples. */
  readonly cue?: number;
}

/** Of several sessions, each in its order. */
export async function trialsOfSessions(db: Kysely<Database>, sessions: readonly string[]): Promise<Trial[]> {
  const rows = await inPieces(sessions, (piece) =>
    db
      .selectFrom('trials')
      .selectAll()
      .where('sessionId', 'in', piece)
      .orderBy('sessionId')
      .orderBy('position')
      .execute(),
  );
  return rows.map(toTrial);
}

/** The row that keeps a trial. */
export function toTrialRow(trial: Trial): TrialRow {
  return {
    id: trial.id,
    revision: trial.revision,
    sessionId: trial.session,
    position: trial.position,
    effort: trial.effort,
    recordingHash: trial.recording ?? null,
    recordingLabel: trial.recordingLabel ?? null,
    reading: trial.reading === undefined ? null : toJson(trial.reading),
    forceSelection: trial.forceSelection === undefined ? null : toJson(trial.forceSelection),
    spanStart: trial.span?.start ?? null,
    spanEnd: trial.span?.end ?? null,
    cue: trial.cue ?? null,
  };
}

/** The trial a row keeps. */
export function toTrial(row: TrialRow): Trial {
  return {
    id: row.id,
    revision: row.revision,
    session: row.sessionId,
    position: row.position,
    effort: row.effort as EffortKind,
    ...(row.recordingHash === null ? {} : { recording: row.recordingHash }),
    ...(row.recordingLabel === null ? {} : { recordingLabel: row.recordingLabel }),
    ...(row.reading === null ? {} : { reading: fromJson<Readonly<Record<string, string | number>>>(row.reading) }),
    ...(row.forceSelection === null ? {} : { forceSelection: fromJson<ForceSelection>(row.forceSelection) }),
    ...(row.spanStart === null || row.spanEnd === null ? {} : { span: { start: row.spanStart, end: row.spanEnd } }),
    ...(row.cue === null ? {} : { cue: row.cue }),
  };
}
