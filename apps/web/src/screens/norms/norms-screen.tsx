import type { NormsView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useLab } from '../../app/lab.ts';
import { normsQuery } from '../../data/follow.ts';
import { followWords } from '../../words/follow.ts';
import { FollowPage } from '../athletes/follow-page.tsx';
import { SquadChoice } from '../athletes/squad-choice.tsx';
import { useChoice } from '../athletes/use-choice.ts';
import { valueText } from '../athletes/values.ts';
import { PublishedPart } from './published-part.tsx';
import './norms.css';

/** What is usual in this lab, by sex and age, with n; below it and apart, what was published of other people. */
export function NormsScreen() {
  const t = followWords.norms;
  const lab = useLab() ?? 'lab';
  const { test, metric } = useChoice();
  const query = useQuery(
    normsQuery(lab, { ...(test === undefined ? {} : { test }), ...(metric === undefined ? {} : { metric }) }),
  );
  return (
    <FollowPage lab={lab} className="norms-page" title={t.title} question={t.question} of={query}>
      {(data) => (
        <>
          <SquadChoice view={data} />
          <p className="soft">{t.text}</p>
          {data.groups.length === 0 ? <p className="nothing">{t.none}</p> : <Groups view={data} />}
          {data.test !== undefined && <PublishedPart lab={lab} test={data.test} metric={data.metric} />}
        </>
      )}
    </FollowPage>
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
