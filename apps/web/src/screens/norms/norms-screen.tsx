import type { NormsView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { normsQuery } from '../../data/follow.ts';
import { FollowPlaces } from '../../parts/follow-places.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { followWords } from '../../words/follow.ts';
import { SquadChoice } from '../athletes/squad-choice.tsx';
import { useChoice } from '../athletes/use-choice.ts';
import { valueText } from '../athletes/values.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import '../sessions/sessions.css';
import './norms.css';

/** What is usual in this lab, by sex and age, with n. */
export function NormsScreen() {
  const t = followWords.norms;
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const { test, metric } = useChoice();
  const query = useQuery(
    normsQuery(lab, { ...(test === undefined ? {} : { test }), ...(metric === undefined ? {} : { metric }) }),
  );
  const { data } = query;
  return (
    <section className="page norms-page" aria-busy={query.isFetching}>
      <FollowPlaces lab={lab} />
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.question}</p>
      </div>
      {query.isError && <ProblemCard error={query.error} onRetry={() => void query.refetch()} />}
      {!data && !query.isError && <TableSkeleton />}
      {data && (
        <>
          <SquadChoice view={data} />
          <p className="soft">{t.text}</p>
          {data.groups.length === 0 ? <p className="nothing">{t.none}</p> : <Groups view={data} />}
          <p className="small soft">{t.others}</p>
        </>
      )}
    </section>
  );
}

function Groups({ view }: { view: NormsView }) {
  const t = followWords.norms;
  const { unit } = view.metric;
  return (
    <table className="list norms-table">
      <thead>
        <tr>
          <th scope="col">{t.head.group}</th>
          <th scope="col" className="right">
            {t.head.n}
          </th>
          <th scope="col" className="right">
            {t.head.mean}
          </th>
          <th scope="col" className="right">
            {t.head.sd}
          </th>
          <th scope="col">{t.head.percentiles}</th>
        </tr>
      </thead>
      <tbody>
        {view.groups.map(({ sex, band, n, mean, sd, percentiles }) => (
          <tr key={`${sex} ${band}`}>
            <th scope="row">
              {sex === undefined ? t.noSex : t.sex[sex]}, {t.band[band]}
            </th>
            <td className="right number" data-label={t.head.n}>
              {n}
            </td>
            <td className="right number peak">{valueText(mean, unit)}</td>
            <td className="right number" data-label={sd === undefined ? undefined : t.head.sd}>
              {sd === undefined ? '' : valueText(sd, unit)}
            </td>
            <td className={percentiles === undefined ? 'soft' : 'number'}>
              {percentiles === undefined ? t.few(n) : percentiles.map((one) => valueText(one, unit)).join(', ')}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
