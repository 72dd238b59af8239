import type { LabId, ReliabilityByRule, ReliabilityView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { byRuleQuery } from '../../data/follow.ts';
import { numberText } from '../../number/format.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { reliabilityWords } from '../../words/reliability.ts';
import { scaleText, valueText } from '../athletes/values.ts';

/** Every onset rule on the same efforts, the most reliable first; worked out when it is opened. */
export function RulesPart({ lab, view }: { lab: LabId; view: ReliabilityView }) {
  const t = reliabilityWords.rules;
  const [open, setOpen] = useState(false);
  const query = useQuery({
    ...byRuleQuery(lab, {
      ...(view.squad === undefined ? {} : { squad: view.squad }),
      ...(view.test === undefined ? {} : { test: view.test }),
      ...{ metric: view.metric.id, sessions: view.sessions },
    }),
    enabled: open,
  });
  const { data } = query;
  return (
    <details className="study-rules" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{t.title}</summary>
      {query.isError && <ProblemCard error={query.error} onRetry={() => void query.refetch()} />}
      {open && query.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {data?.reason !== undefined && (
        <p className="soft">{data.reason === 'not-of-onset' ? t.none['not-of-onset'] : t.none.other}</p>
      )}
      {data && data.rows.length > 0 && <Rules lab={lab} found={data} />}
    </details>
  );
}

function Rules({ lab, found }: { lab: LabId; found: ReliabilityByRule }) {
  const t = reliabilityWords.rules;
  const { unit } = found.metric;
  return (
    <>
      <p className="small soft">{t.text(found.trials)}</p>
      <table className="list study-table">
        <thead>
          <tr>
            <th scope="col">{t.head.rule}</th>
            <th scope="col" className="right">
              {t.head.error}
            </th>
            <th scope="col" className="right">
              {t.head.interval}
            </th>
            <th scope="col" className="right">
              {t.head.icc}
            </th>
            <th scope="col" className="right">
              {t.head.mean}
            </th>
            <th scope="col" className="right">
              {t.head.people}
            </th>
          </tr>
        </thead>
        <tbody>
          {found.rows.map(({ rule, title, current, error, interval, icc, mean, people }) => (
            <tr key={rule}>
              <th scope="row">
                {title} {current && <span className="small soft">({t.current})</span>}
              </th>
              <td className="right number peak">
                {error === undefined ? <span className="soft">{t.lacking}</span> : scaleText(error.value, found)}
              </td>
              <td className="right number" data-label={interval && t.head.interval}>
                {interval === undefined
                  ? ''
                  : `${scaleText(interval.low, found)} to ${scaleText(interval.high, found)}`}
              </td>
              <td className="right number" data-label={icc && t.head.icc}>
                {icc === undefined ? '' : numberText(icc.value, 2)}
              </td>
              <td className="right number" data-label={mean === undefined ? undefined : t.head.mean}>
                {mean === undefined ? '' : valueText(mean, unit)}
              </td>
              <td className="right number" data-label={t.head.people}>
                {people}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        <Link to={`/${lab}/methods`}>{t.change}</Link>
      </p>
    </>
  );
}
