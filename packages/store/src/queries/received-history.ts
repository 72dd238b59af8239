import type { UtcInstant } from '@sthene/core';
import type { Kysely } from 'kysely';
import type { Database } from '../database.ts';
import { type ReceivedValue, toValue } from '../records/received-value.ts';

/** The received values of one metric in one session. */
export interface MetricOfSessions {
  readonly session: string;
  readonly at: UtcInstant;
  readonly timeKnown: boolean;
  readonly methodLabel: string;
  readonly fileName: string;
  /** By row of the table. */
  readonly values: readonly ReceivedValue[];
}

/** One metric of one person's test as others gave it, oldest first; imports that were taken back are left out. */
export async function receivedHistory(
  db: Kysely<Database>,
  query: { readonly person: string; readonly metric: string; readonly protocol: string },
): Promise<MetricOfSessions[]> {
  const rows = await db
    .selectFrom('receivedValues')
    .innerJoin('receivedSessions', 'receivedSessions.sessionId', 'receivedValues.sessionId')
    .innerJoin('receivedImports', 'receivedImports.id', 'receivedValues.importId')
    .innerJoin('sessions', 'sessions.id', 'receivedValues.sessionId')
    .selectAll('receivedValues')
    .select(['sessions.startedAt', 'receivedSessions.methodLabel', 'receivedSessions.timeKnown'])
    .select('receivedImports.fileName')
    .where('sessions.personId', '=', query.person)
    .where('sessions.protocolId', '=', query.protocol)
    .where('receivedValues.metric', '=', query.metric)
    .where('receivedImports.takenBack', '=', 0)
    .orderBy('sessions.startedAt')
    .orderBy('sessions.id')
    .orderBy('receivedValues.row')
    .orderBy('receivedValues.id')
    .execute();
  const found = new Map<string, MetricOfSessions & { values: ReceivedValue[] }>();
  for (const row of rows) {
    const known = found.get(row.sessionId);
    if (known) known.values.push(toValue(row));
    else
      found.set(row.sessionId, {
        session: row.sessionId,
        at: row.startedAt as UtcInstant,
        timeKnown: row.timeKnown === 1,
        methodLabel: row.methodLabel,
        fileName: row.fileName,
        values: [toValue(row)],
      });
  }
  return [...found.values()];
}
