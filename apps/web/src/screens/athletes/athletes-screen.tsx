import { useQuery } from '@tanstack/react-query';
import { useId, useMemo, useState } from 'react';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { squadTableQuery } from '../../data/athletes.ts';
import { numberText } from '../../number/format.ts';
import { FollowPlaces } from '../../parts/follow-places.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { ReportLink } from '../../parts/report-link.tsx';
import { athleteWords as t } from '../../words/athletes.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import { Choice } from './choice.tsx';
import { fits } from './filter.ts';
import { Filters, Views } from './filters.tsx';
import { ordered, orderFrom } from './order.ts';
import { SmallFigures } from './small-figures.tsx';
import { SquadChoice } from './squad-choice.tsx';
import { SquadList } from './squad-list.tsx';
import { TwoValues } from './two-values.tsx';
import { useChoice } from './use-choice.ts';
import '../sessions/sessions.css';
import './athletes.css';

/** Where does everybody stand, and who changed? The way to one athlete's page. */
export function AthletesScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const { squad, test, metric, sort, view, position, may, against, choose } = useChoice();
  const reference = references.find((one) => one === against);
  const query = useQuery(
    squadTableQuery(lab, {
      ...(squad ? { squad } : {}),
      ...(test === undefined ? {} : { test }),
      ...(metric === undefined ? {} : { metric }),
      ...(reference === undefined ? {} : { against: reference }),
      ...(view === 'small' ? { trails: 'true' } : {}),
    }),
  );
  const [text, setText] = useState('');
  const id = useId();
  const { data } = query;
  const found = useMemo(
    () => data?.rows.filter((row) => fits(row, { text, position, may })),
    [data, text, position, may],
  );
  const inOrder = useMemo(() => ordered(found ?? [], orderFrom(sort)), [found, sort]);
  const nobody = data !== undefined && data.rows.length === 0 && data.squad === undefined;
  const judged = data?.rows.filter(({ change }) => change !== undefined).length ?? 0;
  return (
    <section className="page follow-list" aria-busy={query.isFetching}>
      <FollowPlaces lab={lab} />
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft" role="status">
          {found && found.length > 0 ? t.found(found.length) : ''}
        </p>
      </div>
      {query.isError && <ProblemCard error={query.error} onRetry={() => void query.refetch()} />}
      {!data && !query.isError && <TableSkeleton />}
      {data && !nobody && (
        <search className="follow-choice">
          <SquadChoice view={data}>
            <div className="field">
              <label htmlFor={id}>{t.search}</label>
              <input
                id={id}
                type="search"
                value={text}
                placeholder={t.searchHint}
                maxLength={100}
                onChange={(event) => setText(event.target.value)}
              />
            </div>
            <Choice label={t.reference} value={data.against} onChange={(value) => choose('against', value)}>
              {references.map((one) => (
                <option key={one} value={one}>
                  {t.references[one]}
                </option>
              ))}
            </Choice>
            <Filters rows={data.rows} />
            <div className="follow-phone">
              <Choice label={t.order} value={sort ?? 'name'} onChange={(value) => choose('sort', value)}>
                {orders.map(({ order, text: of }) => (
                  <option key={order} value={order}>
                    {of}
                  </option>
                ))}
              </Choice>
            </div>
          </SquadChoice>
          <Views />
        </search>
      )}
      {nobody && (
        <div className="nothing">
          <h2>{t.none.title}</h2>
          <p>{t.none.text}</p>
          <p>
            <Link className="button main" to={`/${lab}/import`}>
              {t.none.act}
            </Link>
          </p>
        </div>
      )}
      {data && !nobody && found?.length === 0 && (
        <div className="nothing">
          <h2>{t.nothing.title}</h2>
          <p>{t.nothing.text}</p>
          <p>
            <button
              type="button"
              className="button"
              onClick={() => {
                setText('');
                choose('position', '');
                choose('may', '');
              }}
            >
              {t.nothing.act}
            </button>
          </p>
        </div>
      )}
      {data && found && found.length > 0 && (
        <>
          {judged > 0 && <p className="soft">{t.chance(data.words, judged, numberText(data.byChance, 1))}</p>}
          <ReportLink lab={lab} of={{ kind: 'squad', squad: data.squad, test: data.test, metric: data.metric.id }} />
          {view === 'figure' ? (
            <TwoValues lab={lab} table={data} rows={found} />
          ) : view === 'small' ? (
            <SmallFigures lab={lab} table={data} rows={inOrder} />
          ) : (
            <SquadList
              lab={lab}
              table={data}
              rows={inOrder}
              order={orderFrom(sort)}
              onOrder={(order) => choose('sort', order)}
            />
          )}
        </>
      )}
    </section>
  );
}

const references = ['last', 'mean-of-three', 'season-start', 'first'] as const;

/** What a phone, which has no headings to press, offers. */
const orders = [
  { order: 'name', text: t.head.person },
  { order: '-value', text: t.head.value },
  { order: '-z', text: t.head.z },
  { order: '-change', text: t.head.changeAlone },
  { order: '-last', text: t.head.last },
] as const;
