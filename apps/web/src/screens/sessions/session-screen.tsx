import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { sessionQuery } from '../../data/queries.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';

/** The trials of one session. */
export function SessionScreen() {
  usePageTitle(words.sessions.title);
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const session = useQuery(sessionQuery(lab, id));
  return (
    <section className="page">
      <h1>{session.data?.person.name ?? words.sessions.title}</h1>
      {session.isError && <ProblemCard error={session.error} onRetry={() => void session.refetch()} />}
      <ul>
        {session.data?.rows.map((row) => (
          <li key={row.id}>
            <Link to={`/${lab}/trials/${row.id}`}>{words.sessions.trial(row.order)}</Link>{' '}
            <span className="soft">{words.state[row.state]}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
