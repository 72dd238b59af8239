import type { UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import { type ReceivedValue, toValue } from '../records/received-value.ts';

/** The received values of one session that a question finds. */
export interface MetricOfSessions {
  readonly session: string;
  readonly protocol: string;
  readonly at: UtcInstant;
  readonly timeKnown: boolean;
  readonly methodLabel: string;
  readonly fileName: string;
  /** By row of the table. */
  readonly values: readonly ReceivedValue[];
}

export interface ReceivedHistoryQuery {
  readonly person: string;
  /** Every metric unless given. */
  readonly metric?: string;
  /** Every test unless given. */
  readonly protocol?: string;
}

/** What others gave of one person, oldest first; imports that were taken back are left out. */
export async function receivedHistory(db: Kysely<Database>, query: ReceivedHistoryQuery): Promise<MetricOfSessions[]> {
  let asked = db
    .selectFrom('receivedValues')
    .innerJoin('receivedSessions', 'receivedSessions.sessionId', 'receivedValues.sessionId')
    .innerJoin('receivedImports', 'receivedImports.id', 'receivedValues.importId')
    .innerJoin('sessions', 'sessions.id', 'receivedValues.sessionId')
    .selectAll('receivedValues')
    .select(['sessions.startedAt', 'sessions.protocolId', 'receivedSessions.methodLabel', 'receivedSessions.timeKnown'])
    .select('receivedImports.fileName')
    .where('sessions.personId', '=', query.person)
    .where('receivedImports.takenBack', '=', 0)
    .orderBy('sessions.startedAt')
    .orderBy('sessions.id')
    .orderBy('receivedValues.row')
    .orderBy('receivedValues.id');
  if (query.metric !== undefined) asked = asked.where('receivedValues.metric', '=', query.metric);
  if (query.protocol !== undefined) asked = asked.where('sessions.protocolId', '=', query.protocol);
  const rows = await asked.execute();
  const found = new Map<string, MetricOfSessions & { values: ReceivedValue[] }>();
  for (const row of rows) {
    const known = found.get(row.sessionId);
    if (known) known.values.push(toValue(row));
    else
      found.set(row.sessionId, {
        session: row.sessionId,
        protocol: row.protocolId,
        at: row.startedAt as UtcInstant,
        timeKnown: row.timeKnown === 1,
        methodLabel: row.methodLabel,
        fileName: row.fileName,
        values: [toValue(row)],
      });
  }
  return [...found.values()];
}
