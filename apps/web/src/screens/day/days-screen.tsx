import { type DayRow, type LabId, liveRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { daysQuery } from '../../data/days.ts';
import { problemOf } from '../../data/station.ts';
import { whenText } from '../../number/when.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { LabMissing } from '../../parts/lab-missing.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst } from '../../parts/signed.tsx';
import { dayWords as t } from '../../words/day.ts';
import { words } from '../../words/index.ts';
import { testTitle } from '../trial/test-title.ts';
import { PlanForm } from './plan-form.tsx';
import { DayMark } from './status-mark.tsx';
import '../../parts/form.css';
import './day.css';

/** The days of a lab: the one under way first, then what is planned and what was. */
export function DaysScreen() {
  usePageTitle(t.days.title);
  const lab = useLab() ?? 'lab';
  const days = useQuery(daysQuery(lab));
  const [planning, setPlanning] = useState(false);
  const plans = useMay()(liveRoutes.createDay);
  const missing = days.isError && problemOf(days.error).code === 'lab-missing';
  const rows = days.data ?? [];
  const open = rows.filter(({ status }) => status === 'open');
  return (
    <section className="page live-page day-page" aria-busy={days.isFetching}>
      <div className="page-head">
        <h1>{t.days.title}</h1>
        {days.data && rows.length > 0 && !planning && plans && (
          <button type="button" className="button main" onClick={() => setPlanning(true)}>
            {t.days.plan}
          </button>
        )}
      </div>
      {!missing && plans && <SignFirst />}
      {!missing && <Elsewhere unless={liveRoutes.createDay} about="days" />}
      {missing && <LabMissing />}
      {days.isError && !missing && <ProblemCard error={days.error} onRetry={() => void days.refetch()} />}
      {days.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {planning && <PlanForm lab={lab} onClose={() => setPlanning(false)} />}
      {days.data && rows.length === 0 && !planning && (
        <div className="nothing">
          <h2>{t.days.empty.title}</h2>
          {plans && (
            <>
              <p>{t.days.empty.text}</p>
              <div className="acts">
                <button type="button" className="button main" onClick={() => setPlanning(true)}>
                  {t.days.plan}
                </button>
              </div>
            </>
          )}
        </div>
      )}
      {open.map((row) => (
        <article key={row.id} className="panel open-day">
          <DayMark status={row.status}>{t.status[row.status]}</DayMark>
          <h2>{row.title || t.days.untitled}</h2>
          <p className="soft">{row.tests.map(testTitle).join(', ')}</p>
          <div className="acts">
            <Link className="button main" to={`/${lab}/day/${row.id}`}>
              {t.days.goOn}
            </Link>
          </div>
        </article>
      ))}
      {rows.length > 0 && <DayTable lab={lab} rows={rows} />}
    </section>
  );
}

function DayTable({ lab, rows }: { lab: LabId; rows: readonly DayRow[] }) {
  const { head } = t.days;
  return (
    <div className="table-scroll">
      <table className="day-list">
        <caption className="unseen">{t.days.table}</caption>
        <thead>
          <tr>
            <th scope="col">{head.date}</th>
            <th scope="col">{head.title}</th>
            <th scope="col">{head.tests}</th>
            <th scope="col" className="right">
              {head.people}
            </th>
            <th scope="col" className="right">
              {head.trials}
            </th>
            <th scope="col">{head.status}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id}>
              <th scope="row">
                <Link className="day-link" to={`/${lab}/day/${row.id}`}>
                  {whenText(`${row.date}T00:00:00`, false)}
                </Link>
              </th>
              <td>{row.title || t.days.untitled}</td>
              <td>{row.tests.map(testTitle).join(', ')}</td>
              <td className="right number">{row.people}</td>
              <td className="right number">{row.trials}</td>
              <td>
                <DayMark status={row.status}>{t.status[row.status]}</DayMark>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
