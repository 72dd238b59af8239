import type { ComparedMetric } from '@sthene/contract';
import { Link } from 'react-router';
import { methodWords } from '../../words/methods.ts';
import { comparedText, meanText } from './values.ts';

const t = methodWords.comparison;

/** Every value under both methods. Those that are the same stand together below: there is nothing to read in them. */
export function ComparedTable({
  metrics,
  detailOf,
}: {
  metrics: readonly ComparedMetric[];
  /** Address of a value's own page. */
  detailOf?: (metric: string) => string;
}) {
  const same = metrics.filter((one) => one.same);
  const other = metrics.filter((one) => !one.same);
  if (metrics.length === 0) return <p className="soft">{t.nothing}</p>;
  return (
    <>
      {other.length > 0 && (
        <div className="table-scroll compared-scroll">
          <table className="method-list compared-values">
            <caption className="unseen">{t.title}</caption>
            <thead>
              <tr>
                <th scope="col">{t.head.metric}</th>
                <th scope="col" className="right">
                  {t.head.n}
                </th>
                <th scope="col" className="right">
                  {t.head.means}
                </th>
                <th scope="col" className="right">
                  {t.head.after}
                </th>
                <th scope="col" className="right">
                  {t.head.difference}
                </th>
                <th scope="col" className="right">
                  {t.head.limits}
                </th>
                <th scope="col">{t.head.says}</th>
              </tr>
            </thead>
            <tbody>
              {other.map((metric) => (
                <Row key={metric.id} metric={metric} detail={detailOf?.(metric.id)} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      {same.length > 0 && (
        <details>
          <summary>{t.sameRows(same.length)}</summary>
          <p className="small">{same.map(({ title }) => title).join(', ')}</p>
        </details>
      )}
    </>
  );
}

function Row({ metric, detail }: { metric: ComparedMetric; detail: string | undefined }) {
  const { title, n, means, unit, study, onlyFirst, onlySecond } = metric;
  const limits = study?.limits.ok ? study.limits.value : undefined;
  return (
    <tr>
      <th scope="row">{detail === undefined ? title : <Link to={detail}>{title}</Link>}</th>
      <td className="right number">{n}</td>
      <td className="right number">{means === undefined ? '' : meanText(means[0], unit)}</td>
      <td className="right number">{means === undefined ? '' : meanText(means[1], unit)}</td>
      <td className="right number">
        {limits && <b>{comparedText(limits.bias.value, metric)}</b>}
        {limits && (
          <span className="small soft">
            ({comparedText(limits.bias.low, metric)} to {comparedText(limits.bias.high, metric)})
          </span>
        )}
      </td>
      <td className="right number">
        {limits && `${comparedText(limits.lower.value, metric)} to ${comparedText(limits.upper.value, metric)}`}
      </td>
      <td className="small">
        {[
          ...saysOf(metric),
          ...(onlyFirst > 0 ? [t.onlyFirst(onlyFirst)] : []),
          ...(onlySecond > 0 ? [t.onlySecond(onlySecond)] : []),
        ].join('; ')}
      </td>
    </tr>
  );
}

/** What the numbers of a study say, in words. */
export function saysOf(metric: Pick<ComparedMetric, 'study' | 'scale' | 'unit'>): string[] {
  const { study } = metric;
  if (study === undefined) return [];
  const { bias, proportional, limits, small } = study;
  const shifted = limits.ok && (limits.value.bias.low > 0 || limits.value.bias.high < 0);
  const scattered = proportional.ok && proportional.value.spread.p < 0.05 && proportional.value.spread.r > 0;
  return [
    !shifted ? t.alike : limits.ok && isTiny(limits.value.bias.value, metric) ? t.tiny : t.fixed,
    ...(bias?.proportional ? [t.proportional] : []),
    ...(scattered ? [t.spread] : []),
    ...(small ? [t.small] : []),
  ];
}

/** Many pairs show a shift that no page would ever show. */
const isTiny = (difference: number, metric: Pick<ComparedMetric, 'scale' | 'unit'>): boolean =>
  Math.abs(difference) < 0.05 && metric.scale === 'log';
