import type { AthleteInput, AthleteSessionFacts } from '../input/athlete.ts';
import type { Block } from '../model/document.ts';
import { type Cell, type Table, text } from '../model/table.ts';
import { unitText } from '../text/numbers.ts';
import { unlikeTitle } from '../words/trade/tests.ts';
import type { Pen } from './frame.ts';

/** Sessions of the table; the figure shows every one. */
const shownSessions = 8;

/** The newest sessions with what is unlike the newest. */
export function sessionsColumn(input: AthleteInput, newest: string | undefined, pen: Pen): Block[] {
  const w = pen.words.athlete;
  const { sessions } = input;
  const all = sessions.toReversed();
  const left = all.length - Math.min(all.length, shownSessions);
  return [
    { kind: 'heading', text: w.sessions },
    {
      kind: 'table',
      table: sessionTable(input, all.slice(0, shownSessions), newest, pen, left === 0 ? undefined : w.more(left)),
    },
  ];
}

function sessionTable(
  { metric, best }: AthleteInput,
  sessions: readonly AthleteSessionFacts[],
  newest: string | undefined,
  { words, numbers, dates, frame }: Pen,
  note: string | undefined,
): Table {
  const { head, note: notes, ...w } = words.athlete;
  const unit = unitText(metric.unit);
  const beside = (one: AthleteSessionFacts): Cell => {
    const said = [
      ...(one.id === newest ? [notes.newest] : []),
      ...(one.id === best ? [notes.best] : []),
      ...(one.familiarisation ? [notes.first] : []),
      ...(one.unlike.length > 0
        ? [w.differs(one.unlike.map((title) => unlikeTitle(title, frame.language)).join(', '))]
        : []),
    ];
    return text(said.length === 0 ? notes.alike : said.join('; '));
  };
  const inUnit = (title: string) => (unit === '' ? title : `${title}, ${unit}`);
  return {
    id: 'sessions',
    title: w.sessions,
    columns: [
      { id: 'session', title: head.when, align: 'left' },
      { id: 'value', title: inUnit(head.value), unit: metric.unit, align: 'right' },
      { id: 'sd', title: head.sd, unit: metric.unit, align: 'right' },
      { id: 'trials', title: head.n, align: 'right' },
      { id: 'note', title: head.note, align: 'left' },
    ],
    rows: sessions.map((one) => {
      const own = one.unit === undefined || one.unit === metric.unit;
      return [
        text(dates.short(one.at), dates.iso(one.at)),
        one.value === undefined
          ? text(w.nothingCounts)
          : own
            ? numbers.cell(one.value, metric.unit)
            : text(numbers.quantity(one.value, one.unit ?? '')),
        own ? numbers.cell(one.sd, metric.unit) : text(''),
        text(w.ofMaximal(one.n, one.maximal)),
        beside(one),
      ];
    }),
    ...(note === undefined ? {} : { note }),
  };
}
