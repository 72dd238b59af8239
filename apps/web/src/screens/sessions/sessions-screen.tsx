import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { sessionsQuery } from '../../data/queries.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { testWords, words } from '../../words/index.ts';

/** Sessions, newest first: the way to a trial. */
export function SessionsScreen() {
  usePageTitle(words.sessions.title);
  const lab = useLab() ?? 'lab';
  const sessions = useQuery(sessionsQuery(lab));
  return (
    <section className="page">
      <h1>{words.sessions.title}</h1>
      {sessions.isError && <ProblemCard error={sessions.error} onRetry={() => void sessions.refetch()} />}
      {sessions.data?.rows.length === 0 && <p>{words.sessions.none}</p>}
      <ul>
        {sessions.data?.rows.map((row) => (
          <li key={row.id}>
            <Link to={`/${lab}/sessions/${row.id}`}>
              {row.person.name}, {testWords(row.protocol)}, {whenText(row.startedAt)}
            </Link>{' '}
            <span className="soft">{words.sessions.trials(row.trials)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
