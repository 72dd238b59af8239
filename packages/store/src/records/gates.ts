import type { UtcInstant } from '@sthene/core';
import { addRecord, type Changes, changeRecord } from '../changes.ts';
import type { GateRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import { grouped } from '../queries/grouped.ts';
import { inPieces } from '../queries/in-pieces.ts';
import type { ChangeOptions } from '../revisions.ts';
import type { Scope } from '../scope.ts';
import { day, filled, instant, oneOf } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

export const gateKinds = ['clearance', 'submaximal-only', 'screening', 'consent', 'pain-stop'] as const;
export const gateLimbs = ['both', 'left', 'right'] as const;

/** A clearance, restriction, screening, consent or stop of a person. Lifted by a named release, never removed. */
export interface Gate {
  readonly id: string;
  readonly revision: number;
  readonly person: string;
  readonly kind: (typeof gateKinds)[number];
  /** Given or withheld; of a restriction or stop: in force. */
  readonly granted: boolean;
  readonly limb: (typeof gateLimbs)[number];
  /** A test's id; absent: every test. */
  readonly test?: string;
  /** `YYYY-MM-DD`. */
  readonly from: string;
  /** Last day on which it holds. */
  readonly until?: string;
  readonly note: string;
  readonly released?: { readonly by: string; readonly at: UtcInstant; readonly reason: string };
}

type GateFields = Omit<Gate, 'id' | 'revision'>;

export interface GateRepository {
  add(gate: GateFields, actor: Actor): Promise<Gate>;
  change(id: string, changes: Changes<GateFields>, actor: Actor, options?: ChangeOptions): Promise<Gate>;
  get(id: string): Promise<Gate | undefined>;
  /** All of a person's, by first day; those of one day in the order in which they were added. */
  ofPerson(person: string): Promise<Gate[]>;
  /** The same of several people, by person; one without any is not among them. */
  ofPeople(people: readonly string[]): Promise<Map<string, Gate[]>>;
  /** The same of everybody, by person. */
  ofEverybody(): Promise<Map<string, Gate[]>>;
}

const shape: RecordShape<Gate, 'gates'> = {
  kind: 'gate',
  table: 'gates',
  check: (gate) => {
    oneOf('kind', gate.kind, gateKinds);
    oneOf('limb', gate.limb, gateLimbs);
    if (gate.test !== undefined) filled('test', gate.test);
    day('from', gate.from);
    if (gate.until !== undefined) day('until', gate.until);
    if (gate.released !== undefined) {
      filled('released.by', gate.released.by);
      instant('released.at', gate.released.at);
    }
  },
  toRow: (gate): GateRow => ({
    id: gate.id,
    revision: gate.revision,
    personId: gate.person,
    kind: gate.kind,
    granted: gate.granted ? 1 : 0,
    limb: gate.limb,
    test: gate.test ?? null,
    fromDay: gate.from,
    untilDay: gate.until ?? null,
    note: gate.note,
    releasedBy: gate.released?.by ?? null,
    releasedAt: gate.released?.at ?? null,
    releaseReason: gate.released?.reason ?? null,
  }),
  fromRow: (row) => ({
    id: row.id,
    revision: row.revision,
    person: row.personId,
    kind: row.kind as Gate['kind'],
    granted: row.granted === 1,
    limb: row.limb as Gate['limb'],
    ...(row.test === null ? {} : { test: row.test }),
    from: row.fromDay,
    ...(row.untilDay === null ? {} : { until: row.untilDay }),
    note: row.note,
    ...(row.releasedBy === null || row.releasedAt === null
      ? {}
      : { released: { by: row.releasedBy, at: row.releasedAt as UtcInstant, reason: row.releaseReason ?? '' } }),
  }),
};

export function gateRepository(scope: Scope): GateRepository {
  const table = recordTable(shape);
  const inOrder = () =>
    scope.db
      .selectFrom('gates')
      .selectAll()
      .orderBy('fromDay')
      // Of two words given for one day the later one holds, so the order in which they came is kept.
      .orderBy(({ selectFrom }) =>
        selectFrom('audit')
          .select(({ fn }) => fn.min('audit.sequence').as('added'))
          .where('audit.subjectKind', '=', shape.kind)
          .whereRef('audit.subjectId', '=', 'gates.id'),
      );
  return {
    add: (gate, actor) => addRecord(scope, table, { ...gate, id: scope.ids.next(), revision: 1 }, actor),
    change: (id, changes, actor, options) => changeRecord(scope, table, id, changes, actor, options),
    get: (id) => readRecord(scope.db, shape, id),
    async ofPerson(person) {
      return (await inOrder().where('personId', '=', person).execute()).map(shape.fromRow);
    },
    async ofPeople(people) {
      const rows = await inPieces(people, (piece) => inOrder().where('personId', 'in', piece).execute());
      return grouped(rows.map(shape.fromRow), ({ person }) => person);
    },
    ofEverybody: async () => grouped((await inOrder().execute()).map(shape.fromRow), ({ person }) => person),
  };
}
