import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useStation } from '../../data/queries.ts';
import { sessionPagesQuery } from '../../data/session-pages.ts';
import { problemOf } from '../../data/station.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { sessionWords as t } from '../../words/session-list.ts';
import { Filters } from './filters.tsx';
import { Pages } from './pages.tsx';
import { SessionTable, TableSkeleton } from './session-table.tsx';
import { pageSize, useSessionFilter } from './use-session-filter.ts';
import './sessions.css';

/** Sessions, newest first: the way to a trial. */
export function SessionsScreen() {
  usePageTitle(words.sessions.title);
  const lab = useLab() ?? 'lab';
  const [filter, setFilter] = useSessionFilter();
  const offset = (filter.page - 1) * pageSize;
  const sessions = useQuery(
    sessionPagesQuery(lab, {
      ...(filter.text ? { text: filter.text } : {}),
      ...(filter.test ? { protocol: filter.test } : {}),
      offset,
      limit: pageSize,
    }),
  );
  const station = useStation();
  const filtered = filter.text !== '' || filter.test !== '';
  const { data } = sessions;
  const missing = sessions.isError && problemOf(sessions.error).code === 'lab-missing';
  const empty = data?.total === 0 && !filtered;
  const exampleThere = station.data?.labs.some((one) => one.id === 'example' && one.exists);
  return (
    <section className="page sessions-page" aria-busy={sessions.isFetching}>
      <div className="page-head">
        <h1>{words.sessions.title}</h1>
        <p className="soft" role="status">
          {data && !empty ? t.found(data.total) : ''}
        </p>
      </div>
      {missing ? (
        <Nothing title={t.missing.title} text={t.missing.text}>
          <Link className="button main" to={`/${lab}/import`}>
            {t.empty.act}
          </Link>
          <Link to="/">{t.missing.act}</Link>
        </Nothing>
      ) : empty ? (
        <Nothing title={t.empty.title} text={t.empty.text}>
          <Link className="button main" to={`/${lab}/import`}>
            {t.empty.act}
          </Link>
          {lab === 'lab' && <Link to={exampleThere ? '/example/sessions' : '/?demo=fernwater'}>{t.empty.example}</Link>}
        </Nothing>
      ) : (
        <>
          <Filters filter={filter} setFilter={setFilter} />
          {sessions.isError && <ProblemCard error={sessions.error} onRetry={() => void sessions.refetch()} />}
          {!data && !sessions.isError && <TableSkeleton />}
          {data && data.rows.length > 0 && (
            <SessionTable lab={lab} rows={data.rows} stale={sessions.isPlaceholderData} />
          )}
          {data && data.rows.length === 0 && (
            <Nothing title={t.nothing.title} text={t.nothing.text}>
              <button type="button" className="button" onClick={() => setFilter({ text: '', test: '', page: 1 })}>
                {t.clear}
              </button>
            </Nothing>
          )}
          {data && data.total > pageSize && (
            <Pages page={filter.page} total={data.total} onPage={(page) => setFilter({ ...filter, page })} />
          )}
        </>
      )}
    </section>
  );
}

function Nothing({ title, text, children }: { title: string; text: string; children: React.ReactNode }) {
  return (
    <div className="nothing">
      <h2>{title}</h2>
      <p>{text}</p>
      <div className="acts">{children}</div>
    </div>
  );
}
