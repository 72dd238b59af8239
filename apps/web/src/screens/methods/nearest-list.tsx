import type { LabId, NearestFound } from '@sthene/contract';
import { Link } from 'react-router';
import { numberText } from '../../number/format.ts';
import { methodWords } from '../../words/methods.ts';
import { differenceText, valueText } from '../athletes/values.ts';

const t = methodWords.nearest;

/** Ways to analyse, nearest first, each with its distance in every value. */
export function NearestList({ lab, found }: { lab: LabId; found: NearestFound }) {
  const facts = new Map(found.metrics.map((one) => [one.id, one]));
  return (
    <section className="panel" aria-labelledby="nearest-found">
      <h2 id="nearest-found">{t.ranked}</h2>
      <p role="status">{t.matched(found.matched, found.lines)}</p>
      {found.ranked.length === 0 && <p className="soft">{t.none}</p>}
      {found.ranked.length > 0 && (
        <div className="table-scroll">
          <table className="method-list nearest-list">
            <thead>
              <tr>
                <th scope="col" className="right">
                  {t.head.rank}
                </th>
                <th scope="col">{t.head.way}</th>
                <th scope="col" className="right">
                  {t.head.distance}
                </th>
                <th scope="col">{t.head.values}</th>
              </tr>
            </thead>
            <tbody>
              {found.ranked.map(({ kind, id, name, distance, metrics }, i) => (
                <tr key={`${kind} ${id}`}>
                  <td className="right number">{i + 1}</td>
                  <th scope="row">
                    {kind === 'method' ? <Link to={`/${lab}/methods/${id}`}>{name}</Link> : name}
                    <span className="small soft">{t.kinds[kind]}</span>
                  </th>
                  <td className="right number">{numberText(distance, distance < 10 ? 2 : 1)}&nbsp;%</td>
                  <td className="small">
                    <ul>
                      {metrics.map(({ metric, n, meanAbsolute, bias, lower, upper }) => {
                        const { title = metric, unit = '' } = facts.get(metric) ?? {};
                        const limits =
                          lower === undefined || upper === undefined
                            ? ''
                            : t.limits(differenceText(lower, unit), differenceText(upper, unit));
                        return (
                          <li key={metric}>
                            {t.value(title, n, valueText(meanAbsolute, unit), differenceText(bias, unit), limits)}
                          </li>
                        );
                      })}
                    </ul>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {found.unmatched.length > 0 && (
        <>
          <h3>{t.unmatched}</h3>
          <ul className="small">
            {found.unmatched.map(({ line, words }) => (
              <li key={line}>{t.line(line, words)}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
