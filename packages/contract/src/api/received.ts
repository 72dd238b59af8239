import { z } from 'zod';
import { labId } from './lab.ts';
import { personDraft } from './people.ts';
import type { Route } from './routes.ts';

/** What is said where nobody knows by which method a value was made. */
export const unknownMethod = 'not known';

export const valueKind = z.enum(['trial', 'mean', 'best', 'unknown']);

/** What one column of a table of results is; see the mapping of the reader. */
export const columnRole = z.union([
  z.object({ as: z.literal('ignore') }),
  z.object({
    as: z.enum([
      'code',
      'name',
      'given-name',
      'family-name',
      'birth-date',
      'sex',
      'date',
      'time',
      'test',
      'trial',
      'of',
      'method',
      'metric',
      'value',
      'unit',
    ]),
  }),
  z.object({
    as: z.literal('values'),
    metric: z.string(),
    unit: z.string(),
    trial: z.number().int().min(1).max(99).optional(),
    of: valueKind.optional(),
  }),
]);

const names = z.record(z.string(), z.string());

/** How a table of results is understood. */
export const resultsMapping = z.object({
  sheet: z.string().optional(),
  delimiter: z.string().max(1).optional(),
  encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'latin-1']).optional(),
  /** 1-based row of the headings; 0 when there are none. */
  header: z.number().int().min(0),
  /** 1-based first row of values. */
  first: z.number().int().min(1),
  decimal: z.enum(['.', ',']),
  dayOrder: z.enum(['ymd', 'dmy', 'mdy']),
  columns: z.array(columnRole),
  of: valueKind,
  metrics: names,
  units: names,
  tests: names,
});

/** A table that was brought in. */
export const receivedImport = z.object({
  id: z.string(),
  kind: z.enum(['table', 'exchange']),
  fileName: z.string(),
  importedAt: z.string(),
  by: z.string(),
  sessions: z.number(),
  values: z.number(),
  labels: z.array(z.string()),
  takenBack: z.boolean(),
});

export const tableQuestion = z.object({
  upload: z.string(),
  sheet: z.string().optional(),
  delimiter: z.string().max(1).optional(),
  header: z.number().int().min(0).optional(),
  /** Pass over a kept mapping and propose anew. */
  fresh: z.boolean().optional(),
});

/** A table as it is first understood. */
export const tablePreview = z.object({
  kind: z.enum(['table', 'exchange']),
  sheets: z.array(z.string()),
  headings: z.array(z.string()),
  /** First rows behind the headings, as written. */
  rows: z.array(z.array(z.string())),
  rowCount: z.number(),
  mapping: resultsMapping,
  questions: z.array(z.enum(['day-order', 'decimal'])),
  metricNames: z.array(z.string()),
  testNames: z.array(z.string()),
  signature: z.string(),
  /** Name of the kept mapping that was taken, where the headings were met before. */
  template: z.string().optional(),
  /** Imports of the very same file. */
  same: z.array(receivedImport),
});

/** Who somebody of a table is; nothing of an undecided person is imported. */
export const personDecision = z.union([
  z.object({ key: z.string(), id: z.string() }),
  z.object({ key: z.string(), create: personDraft }),
  z.object({ key: z.string(), skip: z.literal(true) }),
]);

export const receivedRequest = z.object({
  upload: z.string(),
  /** Absent for an exchange file. */
  mapping: resultsMapping.optional(),
  /** The test, where the table has no column of tests. */
  test: z.string().optional(),
  /** By which method the values were made; required where no column says it. `not known` is an answer. */
  methodLabel: z.string().trim().min(1).max(200).optional(),
  people: z.array(personDecision),
  onDuplicate: z.enum(['skip', 'keep']).default('skip'),
  remember: z.object({ signature: z.string(), name: z.string().min(1).max(100) }).optional(),
  by: z.string().min(1).max(100),
});

const personBrief = z.object({ id: z.string(), name: z.string(), code: z.string(), birthDate: z.string().optional() });

/** Somebody of the table, and who in the lab it may be. */
export const receivedPerson = z.object({
  key: z.string(),
  /** As the table names them. */
  said: z.string(),
  code: z.string().optional(),
  birthDate: z.string().optional(),
  row: z.number(),
  values: z.number(),
  match: z.enum(['sure', 'doubtful', 'unknown']),
  candidates: z.array(
    personBrief.extend({
      why: z.enum([
        'code',
        'name',
        'name-and-birth-date',
        'spelled-alike',
        'initial',
        'one-letter',
        'same-name-twice',
        'code-of-another-name',
        'birth-date-differs',
      ]),
    }),
  ),
  /** What would be made of them as a new athlete. */
  draft: personDraft,
});

/** What an import of results would do (dry run) or did. */
export const receivedOutcome = z.object({
  dryRun: z.boolean(),
  people: z.array(receivedPerson),
  undecided: z.number(),
  sessions: z.number(),
  values: z.number(),
  /** Cells that say that there is no value. */
  missing: z.number(),
  /** Values of people who are left out, or not decided. */
  notTaken: z.number(),
  refused: z.array(
    z.object({
      code: z.string(),
      row: z.number(),
      column: z.number().optional(),
      found: z.string(),
      means: z.string(),
      next: z.string(),
    }),
  ),
  refusedCount: z.number(),
  leftOut: z.array(z.object({ name: z.string(), values: z.number() })),
  /** Values that are in the lab already. */
  duplicates: z.array(
    z.object({
      row: z.number(),
      person: z.string(),
      day: z.string(),
      metric: z.string(),
      value: z.number(),
      unit: z.string(),
      where: z.enum(['received', 'own', 'own-row']),
      session: z.string().optional(),
    }),
  ),
  duplicateCount: z.number(),
  /** Values of days on which the athlete has a session of this lab's own. */
  ownDays: z.number(),
  same: z.array(receivedImport),
  import: z.string().optional(),
  made: z.array(z.object({ id: z.string(), person: z.string(), day: z.string() })),
});

const inLab = z.object({ lab: labId });
const inLabById = z.object({ lab: labId, id: z.string() });
const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;

/** Results of others without curves, and the exchange of results. */
export const receivedRoutes = {
  table: route({
    method: 'POST',
    path: '/api/labs/:lab/received/table',
    summary: 'How a table of results that was sent is understood, changing nothing',
    params: inLab,
    body: tableQuestion,
    response: tablePreview,
  }),
  dryRun: route({
    method: 'POST',
    path: '/api/labs/:lab/received/dry-run',
    summary: 'What an import of results would do, changing nothing',
    params: inLab,
    body: receivedRequest,
    response: receivedOutcome,
  }),
  import: route({
    method: 'POST',
    path: '/api/labs/:lab/received',
    summary: 'Import a table of results without curves',
    params: inLab,
    body: receivedRequest,
    response: receivedOutcome,
  }),
  list: route({
    method: 'GET',
    path: '/api/labs/:lab/received',
    summary: 'Tables of results that were brought in, newest first',
    params: inLab,
    response: z.array(receivedImport),
  }),
  takeBack: route({
    method: 'POST',
    path: '/api/labs/:lab/received/:id/take-back',
    summary: 'Take an import of results back as a whole, or put it back',
    params: inLabById,
    body: z.object({ takenBack: z.boolean(), reason: z.string().max(500).default(''), by: z.string().min(1).max(100) }),
    response: receivedImport,
  }),
  /** The table as it was received, byte for byte. */
  file: route({
    method: 'GET',
    path: '/api/labs/:lab/received/:id/file',
    summary: 'A table of results, as received',
    params: inLabById,
  }),
  /** One long CSV; see docs/reference/exchange-format.md. */
  exchange: route({
    method: 'GET',
    path: '/api/labs/:lab/exchange.csv',
    summary: 'Every value of the lab as one long CSV, people by their code',
    params: inLab,
    query: z.object({ names: z.enum(['true', 'false']).default('false') }),
  }),
};

export type ResultsMappingBody = z.infer<typeof resultsMapping>;
export type ColumnRoleBody = z.infer<typeof columnRole>;
export type TablePreview = z.infer<typeof tablePreview>;
export type TableQuestion = z.infer<typeof tableQuestion>;
export type ReceivedImport = z.infer<typeof receivedImport>;
export type ReceivedRequest = z.infer<typeof receivedRequest>;
export type ReceivedOutcome = z.infer<typeof receivedOutcome>;
export type ReceivedPerson = z.infer<typeof receivedPerson>;
export type PersonDecision = z.infer<typeof personDecision>;
