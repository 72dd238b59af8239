import type { UtcInstant } from '@sthene/core';
import type { SessionRow } from '../database.ts';
import { fromJson, toJson } from '../json.ts';

/** Body weight of a session, and what was worn when it was taken. */
export interface SessionBodyWeight {
  /** N. */
  readonly value: number;
  readonly from: 'weighing' | 'given';
  readonly worn?: string;
}

/** Values of a protocol's setup fields, by field id. */
export type Setup = Readonly<Record<string, string | number | boolean>>;

/** One person doing one test on one occasion. */
export interface Session {
  readonly id: string;
  readonly revision: number;
  readonly person: string;
  /** The test, and the hash of the protocol it was run by where one is known. */
  readonly protocol: { readonly id: string; readonly version: number; readonly sha256?: string };
  readonly startedAt: UtcInstant;
  readonly endedAt?: UtcInstant;
  readonly rig?: string;
  readonly bodyWeight?: SessionBodyWeight;
  /** m/s^2. */
  readonly gravity: number;
  readonly setup: Setup;
  readonly notes: string;
  /** True when only values are known and no curve. */
  readonly resultsOnly: boolean;
}

/** The row that keeps a session. */
export function toSessionRow(session: Session): SessionRow {
  return {
    id: session.id,
    revision: session.revision,
    personId: session.person,
    protocolId: session.protocol.id,
    protocolVersion: session.protocol.version,
    startedAt: session.startedAt,
    endedAt: session.endedAt ?? null,
    rig: session.rig ?? null,
    bodyWeightValue: session.bodyWeight?.value ?? null,
    bodyWeightFrom: session.bodyWeight?.from ?? null,
    bodyWeightWorn: session.bodyWeight?.worn ?? null,
    gravity: session.gravity,
    setup: toJson(session.setup),
    notes: session.notes,
    resultsOnly: session.resultsOnly ? 1 : 0,
    ...(session.protocol.sha256 === undefined ? {} : { protocolHash: session.protocol.sha256 }),
  };
}

/** The session a row keeps. */
export function toSession(row: SessionRow): Session {
  return {
    id: row.id,
    revision: row.revision,
    person: row.personId,
    protocol: {
      id: row.protocolId,
      version: row.protocolVersion,
      ...(row.protocolHash == null ? {} : { sha256: row.protocolHash }),
    },
    startedAt: row.startedAt as UtcInstant,
    ...(row.endedAt === null ? {} : { endedAt: row.endedAt as UtcInstant }),
    ...(row.rig === null ? {} : { rig: row.rig }),
    ...(row.bodyWeightValue === null ? {} : { bodyWeight: toBodyWeight(row, row.bodyWeightValue) }),
    gravity: row.gravity,
    setup: fromJson<Setup>(row.setup),
    notes: row.notes,
    resultsOnly: row.resultsOnly === 1,
  };
}

function toBodyWeight(row: SessionRow, value: number): SessionBodyWeight {
  const from = row.bodyWeightFrom as SessionBodyWeight['from'];
  return row.bodyWeightWorn === null ? { value, from } : { value, from, worn: row.bodyWeightWorn };
}
