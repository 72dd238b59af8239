import type { UtcInstant } from '@sthene/core';
import type { ReceivedImportRow, ReceivedValueRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';

export const receivedKinds = ['table', 'exchange'] as const;
/** What a received value is of; `unknown` where the table does not say. */
export const receivedOf = ['trial', 'mean', 'best', 'unknown'] as const;

/** One table that was brought in. It is taken back as a whole, and may be put back; nothing of it is ever removed. */
export interface ReceivedImport {
  readonly id: string;
  readonly revision: number;
  readonly kind: (typeof receivedKinds)[number];
  /** SHA-256 of the file as it came. */
  readonly file: string;
  readonly fileName: string;
  readonly byteCount: number;
  /** How its columns were understood. */
  readonly mapping: Readonly<Record<string, unknown>>;
  readonly sessions: number;
  readonly values: number;
  readonly importedAt: UtcInstant;
  readonly takenBack: boolean;
}

/** How a session of results only came to be. */
export interface ReceivedSession {
  readonly session: string;
  readonly import: string;
  /** By which method the values were made, in the words of whoever brought them. */
  readonly methodLabel: string;
  /** False where only the day is known; the instant is then noon UTC. */
  readonly timeKnown: boolean;
}

/** One received value, in the metric's own unit and as it was written. */
export interface ReceivedValue {
  readonly id: string;
  readonly import: string;
  readonly session: string;
  /** 1-based row of the table. */
  readonly row: number;
  /** Which trial of the session, where the table numbers them. */
  readonly position?: number;
  readonly of: (typeof receivedOf)[number];
  readonly metric: string;
  /** Absent with a reason. */
  readonly value?: number;
  readonly unit: string;
  readonly reason?: string;
  readonly given: { readonly value: string; readonly unit: string };
  /** Id of the row in the lab it came from. */
  readonly origin?: string;
  /** What else the row said: verdict, effort, version ..., by name. */
  readonly facts: Readonly<Record<string, string | number>>;
}

export type NewReceivedValue = Omit<ReceivedValue, 'id' | 'import' | 'session'>;

/** A session to make with its values. */
export interface NewReceivedSession {
  readonly person: string;
  readonly protocol: { readonly id: string; readonly version: number };
  readonly startedAt: UtcInstant;
  readonly timeKnown: boolean;
  readonly methodLabel: string;
  /** m/s^2. */
  readonly gravity: number;
  readonly values: readonly NewReceivedValue[];
}

/** A table to bring in, with the original file. */
export interface NewReceivedImport {
  readonly kind: ReceivedImport['kind'];
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly mapping: ReceivedImport['mapping'];
  readonly sessions: readonly NewReceivedSession[];
}

export function toImportRow(one: ReceivedImport): ReceivedImportRow {
  return {
    id: one.id,
    revision: one.revision,
    kind: one.kind,
    fileSha256: one.file,
    fileName: one.fileName,
    byteCount: one.byteCount,
    mapping: toJson(one.mapping),
    sessionCount: one.sessions,
    valueCount: one.values,
    importedAt: one.importedAt,
    takenBack: one.takenBack ? 1 : 0,
  };
}

export function toImport(row: ReceivedImportRow): ReceivedImport {
  return {
    id: row.id,
    revision: row.revision,
    kind: row.kind as ReceivedImport['kind'],
    file: row.fileSha256,
    fileName: row.fileName,
    byteCount: row.byteCount,
    mapping: fromJson<ReceivedImport['mapping']>(row.mapping),
    sessions: row.sessionCount,
    values: row.valueCount,
    importedAt: row.importedAt as UtcInstant,
    takenBack: row.takenBack === 1,
  };
}

export function toValueRow(value: ReceivedValue): ReceivedValueRow {
  return {
    id: value.id,
    importId: value.import,
    sessionId: value.session,
    row: value.row,
    position: value.position ?? null,
    of: value.of,
    metric: value.metric,
    value: value.value ?? null,
    unit: value.unit,
    reason: value.reason ?? null,
    givenValue: value.given.value,
    givenUnit: value.given.unit,
    origin: value.origin ?? null,
    facts: toJson(value.facts),
  };
}

export function toValue(row: ReceivedValueRow): ReceivedValue {
  return {
    id: row.id,
    import: row.importId,
    session: row.sessionId,
    row: row.row,
    ...(row.position === null ? {} : { position: row.position }),
    of: row.of as ReceivedValue['of'],
    metric: row.metric,
    ...(row.value === null ? {} : { value: row.value }),
    unit: row.unit,
    ...(row.reason === null ? {} : { reason: row.reason }),
    given: { value: row.givenValue, unit: row.givenUnit },
    ...(row.origin === null ? {} : { origin: row.origin }),
    facts: fromJson<ReceivedValue['facts']>(row.facts),
  };
}
