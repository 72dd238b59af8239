import type { AthleteView, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { athleteQuery } from '../../data/athletes.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { athleteWords as t } from '../../words/athletes.ts';
import { words } from '../../words/index.ts';
import { receivedWords } from '../../words/received.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import { testTitle } from '../trial/test-title.ts';
import { ChangePart } from './change-part.tsx';
import { Choice } from './choice.tsx';
import { MetricPlot } from './metric-plot.tsx';
import { ReceivedPart } from './received-part.tsx';
import { SessionsPart } from './sessions-part.tsx';
import { useChoice } from './use-choice.ts';
import '../sessions/sessions.css';
import './athletes.css';

/** Is this person changing? One metric over time with its noise, and what may be said of the newest session. */
export function AthleteScreen() {
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const { test, metric } = useChoice();
  const athlete = useQuery(
    athleteQuery(lab, id, { ...(test === undefined ? {} : { test }), ...(metric === undefined ? {} : { metric }) }),
  );
  const { data } = athlete;
  usePageTitle(data ? `${data.person.givenName} ${data.person.familyName}` : t.title);
  return (
    <section className="page follow-page" aria-busy={athlete.isFetching}>
      <Link to={`/${lab}/athletes`} className="way-back">
        <Icon name="left" size={16} />
        {t.back}
      </Link>
      {athlete.isError && <ProblemCard error={athlete.error} onRetry={() => void athlete.refetch()} />}
      {!data && !athlete.isError && <TableSkeleton />}
      {data && <Followed lab={lab} view={data} />}
    </section>
  );
}

function Followed({ lab, view }: { lab: LabId; view: AthleteView }) {
  const { against, choose } = useChoice();
  const change = view.changes.find(({ reference }) => reference === against) ?? view.changes[0];
  const { person } = view;
  const valued = view.sessions.some(({ value }) => value !== undefined);
  return (
    <>
      <header className="follow-head">
        <div>
          <h1>
            {person.givenName} {person.familyName} <span className="soft small code">{person.code}</span>
          </h1>
          <p className="soft">
            {person.squads.join(', ')}
            <span className="follow-paper">
              {view.test === undefined ? '' : ` \u00b7 ${testTitle(view.test)}`}
              {lab === 'example' && ` \u00b7 ${words.app.exampleLong}`}
            </span>
          </p>
        </div>
        <div className="acts follow-acts">
          <button type="button" className="button" onClick={() => print()}>
            {t.print}
          </button>
        </div>
      </header>
      {view.tests.length === 0 ? (
        <p className="soft">{t.noSessions}</p>
      ) : (
        <>
          <div className="follow-choice">
            <Choice label={t.test} value={view.test ?? ''} onChange={(value) => choose('test', value)}>
              {view.tests.map(({ id, sessions }) => (
                <option key={id} value={id}>
                  {t.sessionsOf(testTitle(id), sessions)}
                </option>
              ))}
            </Choice>
            <Choice label={t.metric} value={view.metric.id} onChange={(value) => choose('metric', value)}>
              {view.metrics.map(({ id, title }) => (
                <option key={id} value={id}>
                  {title}
                </option>
              ))}
            </Choice>
            {change && (
              <Choice label={t.reference} value={change.reference} onChange={(value) => choose('against', value)}>
                {view.changes.map(({ reference }) => (
                  <option key={reference} value={reference}>
                    {t.references[reference]}
                  </option>
                ))}
              </Choice>
            )}
          </div>
          {valued ? (
            <ChangePart view={view} change={change} />
          ) : (
            <p className="soft">{view.received.length > 0 ? receivedWords.lines.onlyReceived : t.noValue}</p>
          )}
          <MetricPlot lab={lab} view={view} change={change} />
          <SessionsPart lab={lab} view={view} />
          <ReceivedPart lab={lab} view={view} />
        </>
      )}
    </>
  );
}
