import type { DayRow, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { daysQuery } from '../../data/days.ts';
import { dayText, whenText } from '../../number/when.ts';
import { dayWords } from '../../words/day.ts';
import { words } from '../../words/index.ts';
import { startWords as t } from '../../words/start.ts';
import { DayMark } from '../day/status-mark.tsx';
import '../day/day.css';
import { testTitle } from '../trial/test-title.ts';

/** What of a list of days matters now: the one under way, else those planned for today, else the next one planned. */
export function daysForNow(days: readonly DayRow[], today: string): readonly DayRow[] {
  const open = days.filter(({ status }) => status === 'open');
  if (open.length > 0) return open;
  const planned = days.filter(({ status }) => status === 'planned');
  const now = planned.filter(({ date }) => date === today);
  if (now.length > 0) return now;
  const later = planned.filter(({ date }) => date > today).sort((a, b) => (a.date < b.date ? -1 : 1));
  return later.slice(0, 1);
}

/** The test day of today, or the one that is still open, of each lab that is there. */
export function Today({ labs }: { labs: readonly { readonly id: LabId; readonly demo: boolean }[] }) {
  return (
    <>
      {labs.map((lab) => (
        <LabToday key={lab.id} lab={lab.id} demo={lab.demo} />
      ))}
    </>
  );
}

function LabToday({ lab, demo }: { lab: LabId; demo: boolean }) {
  const days = useQuery(daysQuery(lab));
  const today = dayText(new Date().toISOString());
  const rows = daysForNow(days.data ?? [], today);
  return rows.map((row) => (
    <section key={row.id} className="today" data-status={row.status} aria-labelledby={`day-${row.id}`}>
      <DayMark status={row.status}>{t.today.status(row.status === 'open', row.date === today)}</DayMark>
      <div>
        <h2 id={`day-${row.id}`}>
          {row.title || dayWords.days.untitled}{' '}
          {demo && <span className="example-mark small">{words.app.example}</span>}
        </h2>
        <p className="small soft">
          {whenText(`${row.date}T00:00:00`, false)}, {row.tests.map(testTitle).join(', ')},{' '}
          {t.today.counts(row.people, row.trials)}
        </p>
        {row.status === 'open' && row.date < today && <p className="small">{t.today.stillOpen}</p>}
      </div>
      <Link className="button main" to={`/${lab}/day/${row.id}`}>
        {row.status === 'open' ? t.today.goOn : t.today.look}
      </Link>
    </section>
  ));
}
