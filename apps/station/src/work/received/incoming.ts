import { setImmediate as turn } from 'node:timers/promises';
import { type ReceivedRequest, unknownMethod } from '@sthene/contract';
import { metricFacts, protocolRegistry, type UtcInstant } from '@sthene/core';
import {
  type ExchangeRow,
  type Grid,
  type Refused,
  ResultsReader,
  type TablePerson,
  type TableResults,
  type TableValue,
  unknownMetrics,
} from '@sthene/formats/results-table';
import type { NewReceivedValue } from '@sthene/store';
import { ProblemError, problems } from '../../server/problem-error.ts';
import type { OpenTable } from './open-table.ts';

/** One value on its way in, from a table or an exchange file alike. */
export interface Incoming extends NewReceivedValue {
  /** Key of the person. */
  readonly person: string;
  /** Values of one key make one session. */
  readonly session: string;
  readonly day: string;
  readonly at: UtcInstant;
  readonly timeKnown: boolean;
  readonly test: string;
  readonly methodLabel: string;
  /** Lab and row it was first written by, and the row of the lab that wrote the file. */
  readonly written?: { readonly lab: string; readonly row: string; readonly result?: string };
}

/** All that a file brings. */
export interface IncomingTable {
  readonly people: readonly TablePerson[];
  readonly values: readonly Incoming[];
  readonly refused: readonly Refused[];
  /** Rows of an exchange file that break its rules. */
  readonly badRows: readonly { readonly row: number; readonly column: string; readonly found: string }[];
  readonly missing: number;
  readonly leftOut: TableResults['leftOut'];
}

/** Rows that are read before others may have their turn; a few milliseconds. */
const rowsAtOnce = 500;

/** Reads every value of a file under what was chosen. Throws where something has to be chosen first. */
export async function incomingOf(table: OpenTable, request: ReceivedRequest): Promise<IncomingTable> {
  return table.kind === 'exchange' ? await ofExchange(table.exchange) : await ofTable(table.grid, request);
}

async function ofTable(grid: Grid, request: ReceivedRequest): Promise<IncomingTable> {
  const { mapping, methodLabel, test } = request;
  if (mapping === undefined) throw problems.invalid('A table of results needs a mapping of its columns.');
  const has = (as: string) => mapping.columns.some((one) => one.as === as);
  if (unknownMetrics(mapping).length > 0) throw problems.invalid(`There is no metric "${unknownMetrics(mapping)[0]}".`);
  if (!has('values') && !(has('value') && has('metric')))
    throw missing('received-no-values', 'No column holds values.', 'Choose the metric of at least one column.');
  if (!has('code') && !has('name') && !has('given-name') && !has('family-name'))
    throw missing(
      'received-no-people',
      'No column says whose values they are.',
      'Choose the column with codes or names.',
    );
  if (!has('date'))
    throw missing('received-no-day', 'No column says when the tests were.', 'Choose the column with the day.');
  if (!has('method') && methodLabel === undefined)
    throw missing(
      'received-no-method',
      'It is not said by which method the values were made.',
      'Write it in a few words, or say "not known": such values stand in a line of their own.',
    );
  const tests = [...Object.values(has('test') ? mapping.tests : {}), ...(has('test') ? [] : [test ?? ''])];
  const unknown = tests.find((one) => one !== '' && protocolRegistry.get(one) === undefined);
  if (unknown !== undefined) throw problems.notFound('test');
  if (!has('test') && test === undefined)
    throw missing('received-no-test', 'It is not said which test it was.', 'Choose the test.');

  const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
  const reader = new ResultsReader(grid, mapping, tomorrow);
  for (let r = mapping.first - 1; r < grid.rows.length; r++) {
    reader.read(r);
    if (r % rowsAtOnce === 0) await turn();
  }
  const { people, values, refused, missing: empty, leftOut } = reader.results;
  return {
    people,
    refused,
    leftOut,
    missing: empty,
    badRows: [],
    values: values.map((value) => incoming(value, test ?? '', methodLabel)),
  };
}

const missing = (code: string, detail: string, next: string) => new ProblemError(422, code, detail, next);

function incoming(value: TableValue, usualTest: string, usualLabel: string | undefined): Incoming {
  const { person, day, time, zone, test = usualTest, method, column: _, ...rest } = value;
  const methodLabel = labelOf(method ?? usualLabel ?? unknownMethod);
  const at = instantOf(day, time, zone);
  return {
    ...rest,
    ...{ person, day, at, test, methodLabel },
    timeKnown: time !== undefined,
    session: JSON.stringify([person, day, test, methodLabel]),
    facts: {},
  };
}

/** `Not known` in any spelling is the one answer. */
export const labelOf = (text: string): string =>
  /^(not known|unknown|n\/a|\?)$/i.test(text.trim()) ? unknownMethod : text.trim().replace(/\s+/g, ' ');

/** A time without a zone is one of this station's place; a day alone is noon UTC, so that it is that day nearly everywhere. */
export function instantOf(day: string, time?: string, zone?: string): UtcInstant {
  const text = time === undefined ? `${day}T12:00:00Z` : `${day}T${time}${zone ?? ''}`;
  return new Date(text).toISOString() as UtcInstant;
}

async function ofExchange({ rows, bad }: Extract<OpenTable, { kind: 'exchange' }>['exchange']): Promise<IncomingTable> {
  const people = new Map<string, TablePerson>();
  const values: Incoming[] = [];
  const badRows = [...bad];
  for (const row of rows) {
    const faulty = faultOf(row);
    if (faulty !== undefined) {
      badRows.push({ row: row.at, column: faulty, found: String(row[faulty] ?? '').slice(0, 40) });
      continue;
    }
    const key = `${row.lab_id}/${row.person_id}`;
    if (!people.has(key))
      people.set(key, {
        key,
        row: row.at,
        code: row.code,
        ...(row.given_name === undefined ? {} : { givenName: row.given_name }),
        ...(row.family_name === undefined ? {} : { familyName: row.family_name }),
        ...(row.birth_date === undefined ? {} : { birthDate: row.birth_date }),
      });
    values.push(exchanged(row, key));
    if (values.length % rowsAtOnce === 0) await turn();
  }
  return { people: [...people.values()], values, refused: [], badRows, missing: 0, leftOut: {} };
}

/** The column of a row that says what this lab cannot keep. */
function faultOf(row: ExchangeRow): keyof ExchangeRow | undefined {
  if (Number.isNaN(Date.parse(row.started_at))) return 'started_at';
  if (protocolRegistry.get(row.test) === undefined) return 'test';
  if (metricFacts.get(row.metric) === undefined) return 'metric';
  if (!['trial', 'mean', 'best', 'unknown'].includes(row.of)) return 'of';
  if (row.trial !== undefined && !(Number.isInteger(row.trial) && row.trial > 0)) return 'trial';
  return undefined;
}

/** Facts that travel on with a value. */
const kept = [
  'effort',
  'verdict',
  'standing',
  'computed_at',
  'recording_sha256',
  'application',
  'test_version',
] as const;

function exchanged(row: ExchangeRow & { readonly at: number }, person: string): Incoming {
  const methodLabel = labelOf(
    row.method_label ??
      [row.method_name, row.method_version, row.method_sha256].filter((one) => one !== undefined).join(' '),
  );
  const at = new Date(row.started_at).toISOString() as UtcInstant;
  const facts: Record<string, string | number> = {};
  for (const name of kept) if (row[name] !== undefined) facts[name] = row[name];
  if (row.overruled) facts.overruled = 'true';
  return {
    row: row.at,
    person,
    session: JSON.stringify([row.lab_id, row.session_id, methodLabel]),
    day: at.slice(0, 10),
    at,
    timeKnown: row.time_known,
    test: row.test,
    methodLabel: methodLabel === '' ? unknownMethod : methodLabel,
    ...(row.trial === undefined ? {} : { position: row.trial }),
    of: row.of as Incoming['of'],
    metric: row.metric,
    ...(row.value === undefined ? {} : { value: row.value }),
    unit: row.unit,
    ...(row.reason === undefined ? {} : { reason: row.reason }),
    given: {
      value: row.given_value ?? (row.value === undefined ? '' : String(row.value)),
      unit: row.given_unit ?? row.unit,
    },
    origin: row.origin ?? `${row.lab_id}/${row.row_id}`,
    facts,
    written: {
      lab: row.lab_id,
      row: row.row_id,
      ...(row.result_id === undefined ? {} : { result: row.result_id }),
    },
  };
}
