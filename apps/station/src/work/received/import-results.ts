import type { PersonDecision, ReceivedOutcome, ReceivedRequest } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { refusedWords } from '@sthene/formats/results-table';
import type { NewReceivedSession } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { groupBy } from '../group-by.ts';
import { createPerson } from '../people.ts';
import { forgetUpload } from '../upload.ts';
import { type Duplicates, duplicatesOf } from './duplicates.ts';
import { type Incoming, type IncomingTable, incomingOf } from './incoming.ts';
import { importAnswer } from './list.ts';
import { closeTable, type OpenTable, openTable } from './open-table.ts';
import { decisionsByKey, peopleOf } from './people.ts';
import { rememberResultsMapping } from './remember.ts';

interface Plan {
  readonly table: OpenTable;
  readonly incoming: IncomingTable;
  readonly people: ReceivedOutcome['people'];
  readonly decisions: ReadonlyMap<string, PersonDecision>;
  readonly duplicates: Duplicates;
  /** Values that would be kept, by session. */
  readonly sessions: readonly (readonly Incoming[])[];
  readonly same: ReceivedOutcome['same'];
}

/** Listed in an answer; the rest is counted. */
const mostListed = 500;
/** Sessions of one import: each has its own entries in the history, which take about a millisecond. */
const mostSessions = 10_000;

/** What an import of results would do. Nothing is stored. */
export async function dryRunResults(lab: OpenLab, request: ReceivedRequest): Promise<ReceivedOutcome> {
  return outcomeOf(await planOf(lab, request), true);
}

/** Imports a table of results: the file, new athletes, sessions and values, as one act. */
export async function importResults(lab: OpenLab, request: ReceivedRequest): Promise<ReceivedOutcome> {
  const plan = await planOf(lab, request);
  const { file } = plan.table;
  if (plan.sessions.length === 0) return outcomeOf(plan, false);
  if (plan.sessions.length > mostSessions)
    throw new ProblemError(
      422,
      'received-too-many-sessions',
      `The table would make ${plan.sessions.length} sessions, and ${mostSessions} are made at once.`,
      'Bring it in in pieces, for example one season a file.',
    );
  const actor = await lab.actor(request.by);
  const done = await lab.store.transaction(async (inside) => {
    const ids = new Map<string, string>();
    const idOf = async (key: string): Promise<string> => {
      const known = ids.get(key);
      if (known !== undefined) return known;
      const decision = plan.decisions.get(key) as PersonDecision;
      const id =
        'create' in decision
          ? (await createPerson(inside, decision.create, actor)).id
          : (decision as { id: string }).id;
      ids.set(key, id);
      return id;
    };
    const sessions: NewReceivedSession[] = [];
    for (const own of plan.sessions)
      sessions.push(newSession(own, await idOf((own[0] as Incoming).person), lab.gravity));
    return inside.received.add(
      {
        kind: plan.table.kind,
        bytes: file.bytes,
        fileName: file.name,
        mapping: { ...request.mapping },
        sessions,
      },
      actor,
    );
  });
  if (request.remember && request.mapping)
    await rememberResultsMapping(lab, request.remember.signature, request.remember.name, request.mapping);
  await forgetUpload(lab, file.sha256);
  closeTable();
  return outcomeOf(plan, false, { id: done.received.id, sessions: done.sessions });
}

async function planOf(lab: OpenLab, request: ReceivedRequest): Promise<Plan> {
  const table = await openTable(lab, request.upload, request.mapping);
  const incoming = await incomingOf(table, request);
  const counts = new Map<string, number>();
  for (const { person } of incoming.values) counts.set(person, (counts.get(person) ?? 0) + 1);
  const known = await lab.store.people.list();
  const people = peopleOf(incoming.people, known, counts);
  const decisions = decisionsByKey(request.people);
  for (const decision of decisions.values())
    if ('id' in decision && !known.some(({ id }) => id === decision.id)) throw problems.notFound('athlete');
  const personOf = ({ person }: Incoming): string | undefined => {
    const decision = decisions.get(person);
    return decision !== undefined && 'id' in decision ? decision.id : undefined;
  };
  const duplicates = await duplicatesOf(lab, incoming.values, personOf);
  const keep = incoming.values.filter((value) => {
    const decision = decisions.get(value.person);
    if (decision === undefined || 'skip' in decision) return false;
    const there = duplicates.found.get(value);
    // A row of this lab's own that came back is never kept twice.
    return there === undefined || (request.onDuplicate === 'keep' && there.where !== 'own-row');
  });
  const same = await lab.store.received.ofFile(table.file.sha256);
  return {
    ...{ table, incoming, people, decisions, duplicates },
    sessions: [...groupBy(keep, ({ session }) => session).values()],
    same: await Promise.all(same.map((one) => importAnswer(lab, one))),
  };
}

function newSession(values: readonly Incoming[], person: string, gravity: number): NewReceivedSession {
  const [first] = values as [Incoming, ...Incoming[]];
  const earliest = values.map(({ at }) => at).sort()[0] ?? first.at;
  return {
    person,
    protocol: { id: first.test, version: protocolRegistry.get(first.test)?.version ?? 1 },
    startedAt: earliest,
    timeKnown: values.some(({ timeKnown }) => timeKnown),
    methodLabel: first.methodLabel,
    gravity,
    values: values.map(({ row, position, of, metric, value, unit, reason, given, origin, facts }) => ({
      ...{ row, of, metric, unit, given, facts },
      ...(position === undefined ? {} : { position }),
      ...(value === undefined ? {} : { value }),
      ...(reason === undefined ? {} : { reason }),
      ...(origin === undefined ? {} : { origin }),
    })),
  };
}

function outcomeOf(
  plan: Plan,
  dry: boolean,
  made?: { readonly id: string; readonly sessions: readonly string[] },
): ReceivedOutcome {
  const { incoming, people, decisions, duplicates, sessions } = plan;
  const values = sessions.reduce((sum, own) => sum + own.length, 0);
  const refused = [
    ...incoming.refused.map((one) => ({ ...one, ...refusedWords[one.code] })),
    ...incoming.badRows.map(({ row, column, found }) => ({
      code: 'exchange-row-broken',
      row,
      found: found === '' ? column : `${column}: ${found}`,
      means: `This row breaks the rule of its column "${column}", or names what this version does not know.`,
      next: 'Take the file as it was exported; a newer lab may know what this one does not.',
    })),
  ];
  const saidOf = new Map(people.map(({ key, said }) => [key, said]));
  const repeated = [...duplicates.found];
  return {
    dryRun: dry,
    people,
    undecided: people.filter(({ key }) => !decisions.has(key)).length,
    sessions: sessions.length,
    values,
    missing: incoming.missing,
    notTaken: incoming.values.filter(({ person }) => {
      const decision = decisions.get(person);
      return decision === undefined || 'skip' in decision;
    }).length,
    refused: refused.slice(0, mostListed),
    refusedCount: refused.length,
    leftOut: Object.entries(incoming.leftOut).map(([name, count]) => ({ name, values: count })),
    duplicates: repeated.slice(0, mostListed).flatMap(([value, { where, session }]) =>
      value.value === undefined
        ? []
        : [
            {
              row: value.row,
              person: saidOf.get(value.person) ?? '',
              day: value.day,
              metric: value.metric,
              value: value.value,
              unit: value.unit,
              where,
              ...(session === undefined ? {} : { session }),
            },
          ],
    ),
    duplicateCount: repeated.length,
    ownDays: duplicates.ownDays,
    same: plan.same,
    ...(made === undefined ? {} : { import: made.id }),
    made: (made?.sessions ?? []).slice(0, mostListed).map((id, i) => {
      const first = sessions[i]?.[0] as Incoming;
      return { id, person: saidOf.get(first.person) ?? '', day: first.day };
    }),
  };
}
