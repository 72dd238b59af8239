import { type Day, type LabId, liveRoutes } from '@sthene/contract';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { useDayAct } from '../../data/days.ts';
import { clockText } from '../../number/duration.ts';
import { whenText } from '../../number/when.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst } from '../../parts/signed.tsx';
import { dayWords as t } from '../../words/day.ts';
import { words } from '../../words/index.ts';
import { testTitle } from '../trial/test-title.ts';
import { AskRound, unasked } from './ask-round.tsx';
import { CloseDialog, OpenDialog } from './begin-end.tsx';
import { DayAside } from './day-aside.tsx';
import { PrintSheet } from './print-sheet.tsx';
import { RunningOrder } from './running-order.tsx';
import { DayMark } from './status-mark.tsx';
import { useDay } from './use-day.ts';
import { WalkIn } from './walk-in.tsx';
import '../../parts/form.css';
import './day.css';
import './print.css';

/** One test day: who, in which order, and how everyone stands. */
export function DayScreen() {
  usePageTitle(t.days.untitled);
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const query = useDay(lab, id);
  if (!query.data)
    return (
      <section className="page live-page">
        <WayBack lab={lab} />
        {query.isError ? (
          <ProblemCard page error={query.error} onRetry={() => void query.refetch()} />
        ) : (
          <p className="soft" role="status">
            {words.app.loading}
          </p>
        )}
      </section>
    );
  return <DayPage lab={lab} day={query.data} receivedAt={query.dataUpdatedAt} away={query.isError} />;
}

function WayBack({ lab }: { lab: LabId }) {
  return (
    <Link className="way-back no-print" to={`/${lab}/day`}>
      <Icon name="left" size={16} /> {t.back}
    </Link>
  );
}

interface DayPageProps {
  readonly lab: LabId;
  readonly day: Day;
  /** When this page received the day, ms. */
  readonly receivedAt: number;
  /** The station did not answer since. */
  readonly away: boolean;
}

function DayPage({ lab, day, receivedAt, away }: DayPageProps) {
  const act = useDayAct(lab, day.id);
  const [asking, setAsking] = useState<'open' | 'close' | 'ready'>();
  const runs = useMay()(liveRoutes.changeEntry);
  const toAsk = day.status === 'closed' || !runs ? 0 : unasked(day).length;
  return (
    <>
      <section className="page live-page day-page no-print">
        <WayBack lab={lab} />
        <div className="page-head day-head">
          <h1>{day.title || t.days.untitled}</h1>
          <DayMark status={day.status}>{t.status[day.status]}</DayMark>
          <p className="soft">
            {whenText(`${day.date}T00:00:00`, false)}, {day.tests.map(({ test }) => testTitle(test)).join(', ')}
          </p>
          <div className="acts">
            {day.status !== 'open' ? (
              runs && (
                <button type="button" className="button main" onClick={() => setAsking('open')}>
                  {day.status === 'planned' ? t.acts.open : t.acts.goOn}
                </button>
              )
            ) : (
              <>
                {day.rigs.length === 1 && (
                  <Link className="button main" to={`/${lab}/floor/${day.rigs[0]}`}>
                    {t.acts.floor}
                  </Link>
                )}
                {runs && (
                  <button type="button" className="button" onClick={() => setAsking('close')}>
                    {t.acts.close}
                  </button>
                )}
              </>
            )}
            {toAsk > 0 && (
              <button type="button" className="button" onClick={() => setAsking('ready')}>
                {t.ready.round(toAsk)}
              </button>
            )}
            {runs && <WalkIn lab={lab} day={day} act={act} />}
            <button type="button" className="button" onClick={() => print()}>
              {t.acts.print}
            </button>
          </div>
        </div>
        {away && (
          <p className="band" role="alert">
            {t.offline(clockText(new Date(receivedAt).toISOString()))}
          </p>
        )}
        {runs && <SignFirst />}
        <Elsewhere unless={liveRoutes.changeEntry} about="days" />
        {act.isError && !asking && <ProblemCard error={act.error} />}
        <div className="day-columns">
          <RunningOrder lab={lab} day={day} act={act} receivedAt={receivedAt} />
          <DayAside lab={lab} day={day} />
        </div>
      </section>
      {asking === 'open' && <OpenDialog lab={lab} day={day} act={act} onClose={() => setAsking(undefined)} />}
      {asking === 'close' && <CloseDialog day={day} act={act} onClose={() => setAsking(undefined)} />}
      {asking === 'ready' && <AskRound day={day} act={act} onClose={() => setAsking(undefined)} />}
      <PrintSheet day={day} />
    </>
  );
}
