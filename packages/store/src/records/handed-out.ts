import type { UtcInstant } from '@sthene/core';
import type { HandedOutRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import { type Scope, write } from '../scope.ts';
import { filled, finite, oneOf } from '../values.ts';

export const handedOutKinds = ['athlete', 'squad'] as const;

/** What a page that was handed out said of one athlete. Never changed: the page is out. */
export interface HandedOut {
  readonly id: string;
  /** When it was handed out first. */
  readonly at: UtcInstant;
  readonly kind: (typeof handedOutKinds)[number];
  readonly person: string;
  /** The newest session of the page. */
  readonly session: string;
  readonly test: string;
  readonly metric: string;
  /** What the session was held against. */
  readonly reference: string;
  /** The word of the change; absent where there was none. */
  readonly word?: string;
  readonly value: number;
  readonly unit: string;
}

export interface HandedOutRepository {
  /** Keeps what pages said, as one act; what a page of the same kind said before word for word is not kept twice. Gives how many are new. */
  add(pages: readonly Omit<HandedOut, 'id' | 'at'>[], actor: Actor): Promise<number>;
  /** Oldest first. */
  list(): Promise<HandedOut[]>;
}

export function handedOutRepository(scope: Scope): HandedOutRepository {
  return {
    add: (pages, actor) =>
      write(scope, actor, async ({ db, at, note, unchanged }) => {
        const rows: HandedOutRow[] = [];
        for (const page of pages) {
          const row = toRow(page, scope.ids.next(), at);
          const { id: _, at: __, word, ...said } = row;
          let same = db.selectFrom('handedOut').select('id');
          for (const [column, value] of Object.entries(said))
            same = same.where(column as keyof HandedOutRow, '=', value as never);
          same = word === null ? same.where('word', 'is', null) : same.where('word', '=', word);
          if ((await same.executeTakeFirst()) === undefined) rows.push(row);
        }
        const [first] = rows;
        if (first === undefined) {
          unchanged();
          return 0;
        }
        for (const row of rows) await db.insertInto('handedOut').values(row).execute();
        await note({
          action: 'report.hand-out',
          subject: { kind: 'report', id: first.id },
          details: { kind: first.kind, athletes: rows.length, metric: first.metric },
        });
        return rows.length;
      }),
    async list() {
      const rows = await scope.db.selectFrom('handedOut').selectAll().orderBy('at').orderBy('id').execute();
      return rows.map(fromRow);
    },
  };
}

function toRow(page: Omit<HandedOut, 'id' | 'at'>, id: string, at: string): HandedOutRow {
  oneOf('kind', page.kind, handedOutKinds);
  filled('test', page.test);
  filled('metric', page.metric);
  filled('reference', page.reference);
  filled('unit', page.unit);
  return {
    ...{ id, at, kind: page.kind, personId: page.person, sessionId: page.session, test: page.test },
    ...{ metric: page.metric, reference: page.reference, word: page.word ?? null },
    ...{ value: finite('value', page.value), unit: page.unit },
  };
}

const fromRow = ({ personId, sessionId, word, at, kind, ...row }: HandedOutRow): HandedOut => ({
  ...row,
  at: at as UtcInstant,
  kind: kind as HandedOut['kind'],
  person: personId,
  session: sessionId,
  ...(word === null ? {} : { word }),
});
