import { Link } from 'react-router';
import { usePageTitle } from '../../app/page-title.ts';
import { useStation } from '../../data/queries.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';

/** The labs this station keeps, each with the way to its sessions. */
export function StartScreen() {
  usePageTitle(words.app.start);
  const station = useStation();
  return (
    <section className="page">
      <h1>{words.app.start}</h1>
      {station.isError && <ProblemCard error={station.error} onRetry={() => void station.refetch()} />}
      <ul>
        {station.data?.labs
          .filter((lab) => lab.exists)
          .map((lab) => (
            <li key={lab.id}>
              <Link to={`/${lab.id}/sessions`}>{lab.name}</Link>{' '}
              {lab.demo && <span className="example-mark small">{words.app.example}</span>}
            </li>
          ))}
      </ul>
    </section>
  );
}
