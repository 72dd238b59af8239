import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { sessionQuery } from '../../data/queries.ts';
import { whenText } from '../../number/when.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { ReportLink } from '../../parts/report-link.tsx';
import { words } from '../../words/index.ts';
import { sessionWords } from '../../words/session-list.ts';
import { sessionTitle, testTitle } from '../trial/test-title.ts';
import { ReceivedValues } from './received-values.tsx';
import { SessionFacts } from './session-facts.tsx';
import { SessionSummary } from './session-summary.tsx';
import { TableSkeleton } from './session-table.tsx';
import { TrialTable } from './trial-table.tsx';
import './sessions.css';
import './session.css';

/** One session: its summary, its trials, and how the athlete was set up. */
export function SessionScreen() {
  const t = sessionWords.session;
  usePageTitle(words.sessions.title);
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const session = useQuery(sessionQuery(lab, id));
  const { data } = session;
  return (
    <section className="page session-page" aria-busy={session.isFetching}>
      <Link to={`/${lab}/sessions`} className="way-back">
        <Icon name="left" size={16} />
        {t.back}
      </Link>
      {session.isError && <ProblemCard error={session.error} onRetry={() => void session.refetch()} />}
      {!data && !session.isError && <TableSkeleton />}
      {data && (
        <>
          <header className="session-head">
            <div>
              <h1>
                <Link to={`/${lab}/athletes/${data.person.id}?test=${data.protocol}`} className="session-person">
                  {data.person.name}
                </Link>{' '}
                <span className="soft small code">{data.person.code}</span>
              </h1>
              <p className="soft">
                {sessionTitle(data)} {'\u00b7'} {whenText(data.startedAt, data.received?.timeKnown ?? true)}
                {lab === 'example' && (
                  <span className="print-only">
                    {' '}
                    {'\u00b7'} {words.app.exampleLong}
                  </span>
                )}
              </p>
              {data.sameDay.length > 0 && (
                <p className="same-day">
                  <span className="soft">{t.sameDay}</span>
                  {data.sameDay.map((one) => (
                    <Link key={one.id} to={`/${lab}/sessions/${one.id}`}>
                      {sessionTitle(one)}
                    </Link>
                  ))}
                </p>
              )}
            </div>
            <div className="acts session-acts">
              {!data.received && (
                <Link to={`/${lab}/import?with=${data.id}`} className="button">
                  {t.import}
                </Link>
              )}
              <ReportLink lab={lab} of={{ kind: 'session', session: data.id }} />
              <button type="button" className="button" onClick={() => print()}>
                {t.print}
              </button>
            </div>
          </header>
          <div className="session-parts">
            <div className="session-main">
              {data.received ? (
                <ReceivedValues session={data} />
              ) : (
                <>
                  <SessionSummary session={data} />
                  <TrialTable lab={lab} session={data} />
                </>
              )}
            </div>
            {!data.received && <SessionFacts session={data} />}
          </div>
        </>
      )}
    </section>
  );
}
