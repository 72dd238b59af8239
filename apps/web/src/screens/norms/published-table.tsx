import type { PublishedGroupView, PublishedView } from '@sthene/contract';
import { publishedWords as t } from '../../words/published.ts';
import { valueText } from '../athletes/values.ts';
import { groupName, peopleOf } from './group-name.ts';

/** Groups with mean and SD, each with its source. */
export function PublishedTable({ view }: { view: PublishedView }) {
  const { unit } = view.metric;
  return (
    <table className="list norms-table published-table">
      <thead>
        <tr>
          <th scope="col">{t.head.group}</th>
          <th scope="col">{t.head.n}</th>
          <th scope="col" className="right">
            {t.head.mean}
          </th>
          <th scope="col">{t.head.source}</th>
        </tr>
      </thead>
      <tbody>
        {view.groups.map((group) => (
          <tr key={group.id}>
            <th scope="row">
              {groupName(group)}
              <span className="published-remark">
                {[t.weight[group.weight], group.remark].filter(Boolean).join('. ')}
              </span>
            </th>
            <td data-label={t.head.n}>{peopleOf(group)}</td>
            <td className="right number peak">{t.plusMinus(valueText(group.mean, unit), valueText(group.sd, unit))}</td>
            <td className="published-source">
              <Source of={group} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Ranges, which give nobody a place. */
export function PublishedRanges({ view }: { view: PublishedView }) {
  const { unit } = view.metric;
  return (
    <div className="published-ranges">
      <h3>{t.ranges}</h3>
      <p className="soft">{t.rangesText}</p>
      <ul>
        {view.ranges.map((one) => (
          <li key={one.id}>
            <b>{groupName(one)}</b>: {t.range(valueText(one.low, unit), valueText(one.high, unit))} (
            {[t.of[one.of], t.weight[one.weight]].filter(Boolean).join(', ')}). {one.remark} <Source of={one} />
          </li>
        ))}
      </ul>
    </div>
  );
}

function Source({ of: { source } }: { of: Pick<PublishedGroupView, 'source'> }) {
  return (
    <cite>
      {t.year(source.authors, source.year)}, {source.where}
      {source.doi === undefined ? '' : `, doi ${source.doi}`}
    </cite>
  );
}
