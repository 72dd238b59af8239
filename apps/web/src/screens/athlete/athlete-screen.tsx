import { type AthleteView, followRoutes, type LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { athleteQuery } from '../../data/athletes.ts';
import { notesQuery } from '../../data/follow.ts';
import { whenText } from '../../number/when.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { ReportLink } from '../../parts/report-link.tsx';
import { athleteWords as t } from '../../words/athletes.ts';
import { batteryWords } from '../../words/battery.ts';
import { followWords } from '../../words/follow.ts';
import { words } from '../../words/index.ts';
import { receivedWords } from '../../words/received.ts';
import { Choice } from '../athletes/choice.tsx';
import { SquadChoice } from '../athletes/squad-choice.tsx';
import { useChoice } from '../athletes/use-choice.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import { testTitle } from '../trial/test-title.ts';
import { AsymmetryPart } from './asymmetry-part.tsx';
import { ChangePart } from './change-part.tsx';
import { CurvesPart } from './curves-part.tsx';
import { MetricPlot } from './metric-plot.tsx';
import { NotesPart } from './notes-part.tsx';
import { ReceivedPart } from './received-part.tsx';
import { SessionsPart } from './sessions-part.tsx';
import { SetupsPart } from './setups-part.tsx';
import '../sessions/sessions.css';
import '../athletes/athletes.css';
import './athlete.css';

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
          <Link className="button no-print" to={`/${lab}/athletes/${person.id}/battery`}>
            {batteryWords.link}
          </Link>
          <ReportLink lab={lab} of={{ person: person.id, test: view.test, metric: view.metric.id }} />
          <button type="button" className="button" onClick={() => print()}>
            {t.print}
          </button>
        </div>
      </header>
      {view.tests.length === 0 ? (
        <p className="soft">{t.noSessions}</p>
      ) : (
        <>
          <SquadChoice view={view}>
            {change && (
              <Choice label={t.reference} value={change.reference} onChange={(value) => choose('against', value)}>
                {view.changes.map(({ reference }) => (
                  <option key={reference} value={reference}>
                    {t.references[reference]}
                  </option>
                ))}
              </Choice>
            )}
          </SquadChoice>
          {valued ? (
            <ChangePart view={view} change={change} />
          ) : (
            <p className="soft">{view.received.length > 0 ? receivedWords.lines.onlyReceived : t.noValue}</p>
          )}
          <MetricPlot lab={lab} view={view} change={change} />
          <SessionsPart lab={lab} view={view} />
          <ReceivedPart lab={lab} view={view} />
          <SetupsPart view={view} />
          {view.test !== undefined && <AsymmetryOf lab={lab} view={view} test={view.test} />}
          <CurvesPart lab={lab} view={view} />
        </>
      )}
      <NotesPart lab={lab} view={view} />
    </>
  );
}

/** Left and right, with the days of injuries for who may know of them. */
function AsymmetryOf({ lab, view, test }: { lab: LabId; view: AthleteView; test: string }) {
  const may = useMay()(followRoutes.athleteNotes);
  const notes = useQuery({ ...notesQuery(lab, view.person.id), enabled: may });
  const injuries = (notes.data ?? []).flatMap(({ kind, from, limb }) =>
    kind === 'injury' && limb !== undefined
      ? [{ at: Date.parse(from), text: followWords.asymmetry.injury(whenText(`${from}T12:00:00.000Z`, false), limb) }]
      : [],
  );
  return <AsymmetryPart lab={lab} person={view.person.id} test={test} injuries={injuries} />;
}
