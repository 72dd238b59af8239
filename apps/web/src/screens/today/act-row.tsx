import type { AthleteChange, LabId, TodayRow, TodayView } from '@sthene/contract';
import type { ReactNode } from 'react';
import { Link } from 'react-router';
import { whenText } from '../../number/when.ts';
import { followWords } from '../../words/follow.ts';
import { wordText } from '../athletes/change-word.ts';
import { differenceText, percentText } from '../athletes/values.ts';
import { testTitle } from '../trial/test-title.ts';

interface RowProps {
  readonly lab: LabId;
  readonly row: TodayRow;
  readonly view: TodayView;
}

/** One thing to act on: what kind, who, what was seen, and the way there. */
export function ActRow({ lab, row, view }: RowProps) {
  const t = followWords.today;
  if (row.kind === 'due')
    return (
      <Row kind={row.kind}>
        <p className="today-who">{t.due(row.people.length, view.dueWeeks)}</p>
        <ul className="today-due">
          {row.people.map(({ id, name, last }) => (
            <li key={id}>
              <Link to={`/${lab}/athletes/${id}`}>{name}</Link>{' '}
              <span className="small soft">{last === undefined ? t.never : whenText(last, false)}</span>
            </li>
          ))}
        </ul>
      </Row>
    );
  const to =
    row.kind === 'invalid'
      ? `/${lab}/sessions/${row.session}`
      : `/${lab}/athletes/${row.person.id}?${new URLSearchParams({ test: row.test, metric: view.metric.id })}`;
  return (
    <Row kind={row.kind} word={row.kind === 'changed' ? row.change.word : undefined}>
      <p className="today-who">
        <Link to={to} className="row-link">
          {row.person.name}
        </Link>{' '}
        <span className="small soft">
          <span className="code">{row.person.code}</span>, {testTitle(row.test)}
        </span>
      </p>
      <p>{sentence(row, view)}</p>
    </Row>
  );
}

function Row({ kind, word, children }: { kind: TodayRow['kind']; word?: string | undefined; children: ReactNode }) {
  return (
    <li className="today-row" data-kind={kind} data-word={word}>
      <span className="today-kind">{followWords.today.kind[kind]}</span>
      <div>{children}</div>
    </li>
  );
}

function sentence(row: Exclude<TodayRow, { kind: 'due' }>, view: TodayView): string {
  const t = followWords.today;
  if (row.kind === 'invalid') return t.invalid(whenText(row.at, false));
  const word = (change: AthleteChange) => wordText(change.word, view);
  if (row.kind === 'changed') return t.changed(word(row.change), sizeText(row.change, view), whenText(row.at, false));
  if (row.why === 'one-effort' || row.change === undefined) return t.retest['one-effort'];
  if (row.why === 'not-alike') return t.retest['not-alike'](word(row.change), row.change.unlike.join(', '));
  return t.retest.probably(word(row.change), sizeText(row.change, view));
}

/** The size with its sign, in per cent where there is one. */
const sizeText = ({ percent, difference }: AthleteChange, { metric }: TodayView): string =>
  percent === undefined ? differenceText(difference, metric.unit) : percentText(percent);
