import type { Person } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { peopleQuery } from '../../data/imports.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { athleteWords as t } from '../../words/athletes.ts';
import { words } from '../../words/index.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import '../sessions/sessions.css';
import './athletes.css';

/** Everybody of the lab: the way to one athlete's page. */
export function AthletesScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const people = useQuery(peopleQuery(lab));
  const [text, setText] = useState('');
  const id = useId();
  const { data } = people;
  const found = data?.filter((one) => fits(one, text));
  return (
    <section className="page follow-list" aria-busy={people.isFetching}>
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft" role="status">
          {found && found.length > 0 ? t.found(found.length) : ''}
        </p>
      </div>
      {people.isError && <ProblemCard error={people.error} onRetry={() => void people.refetch()} />}
      {!data && !people.isError && (
        <>
          <p className="unseen" role="status">
            {words.app.loading}
          </p>
          <TableSkeleton />
        </>
      )}
      {data && data.length > 0 && (
        <search className="filters">
          <div className="field">
            <label htmlFor={id}>{t.search}</label>
            <input
              id={id}
              type="search"
              value={text}
              placeholder={t.searchHint}
              maxLength={100}
              onChange={(event) => setText(event.target.value)}
            />
          </div>
        </search>
      )}
      {data?.length === 0 && (
        <div className="nothing">
          <h2>{t.none.title}</h2>
          <p>{t.none.text}</p>
          <p>
            <Link className="button main" to={`/${lab}/import`}>
              {t.none.act}
            </Link>
          </p>
        </div>
      )}
      {data && data.length > 0 && found?.length === 0 && (
        <div className="nothing">
          <h2>{t.nothing.title}</h2>
          <p>{t.nothing.text}</p>
          <p>
            <button type="button" className="button" onClick={() => setText('')}>
              {t.nothing.act}
            </button>
          </p>
        </div>
      )}
      {found && found.length > 0 && (
        <table className="list">
          <caption className="unseen">{t.list}</caption>
          <thead>
            <tr>
              <th scope="col">{t.head.person}</th>
              <th scope="col">{t.head.squads}</th>
              <th scope="col" className="right">
                {t.head.sessions}
              </th>
            </tr>
          </thead>
          <tbody>
            {found.map((one) => (
              <tr key={one.id}>
                <th scope="row">
                  <Link to={`/${lab}/athletes/${one.id}`} className="row-link">
                    {one.givenName} {one.familyName}
                  </Link>{' '}
                  <span className="small soft code">{one.code}</span>
                </th>
                <td className="test">{one.squads.join(', ')}</td>
                <td className="right peak number">{one.sessions}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

/** Every word somewhere in name, code or squads. */
function fits({ givenName, familyName, code, squads }: Person, text: string): boolean {
  const all = [givenName, familyName, code, ...squads].join(' ').toLowerCase();
  return text
    .toLowerCase()
    .split(/\s+/)
    .every((word) => all.includes(word));
}
