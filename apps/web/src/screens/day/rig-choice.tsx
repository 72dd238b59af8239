import { useQuery } from '@tanstack/react-query';
import { Link, Navigate } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { daysQuery } from '../../data/days.ts';
import { rigsQuery } from '../../data/rigs.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { dayWords } from '../../words/day.ts';
import { words } from '../../words/index.ts';
import '../../parts/button.css';
import '../../parts/form.css';
import './day.css';

/** Floor or Wall without a rig in the address: the one rig that runs, or a choice, or why there is none. */
export function RigChoice({ screen }: { screen: 'floor' | 'wall' }) {
  const t = dayWords.choice;
  usePageTitle(t.title[screen]);
  const lab = useLab() ?? 'lab';
  const rigs = useQuery(rigsQuery(lab));
  const days = useQuery(daysQuery(lab));
  const running = (rigs.data ?? []).filter(({ state }) => state !== 'closed');
  const [only] = running;
  if (only !== undefined && running.length === 1) return <Navigate to={`/${lab}/${screen}/${only.id}`} replace />;
  return (
    <section className="page live-page">
      <h1>{t.title[screen]}</h1>
      {rigs.isError && <ProblemCard error={rigs.error} onRetry={() => void rigs.refetch()} />}
      {rigs.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {rigs.data && running.length === 0 && (
        <div className="nothing">
          <h2>{t.none}</h2>
          <p>{(days.data?.length ?? 0) > 0 ? t.beginDay : t.planDay}</p>
          <p>
            <Link className="button main" to={`/${lab}/day`}>
              {t.toDays}
            </Link>
          </p>
        </div>
      )}
      {running.length > 1 && (
        <ul className="day-rigs">
          {running.map((rig) => (
            <li key={rig.id}>
              <RigLetter letter={rig.letter} shape={rig.shape} />
              <Link className="button" to={`/${lab}/${screen}/${rig.id}`}>
                {rig.name}
              </Link>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

export default RigChoice;
