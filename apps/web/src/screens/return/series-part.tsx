import type { LabId, ReturnSeries } from '@sthene/contract';
import { useRef } from 'react';
import { Link } from 'react-router';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { useWidth } from '../../parts/use-width.ts';
import { followWords } from '../../words/follow.ts';
import { inSentence } from '../../words/title.ts';
import { valueText } from '../athletes/values.ts';
import { testTitle } from '../trial/test-title.ts';
import { BackPlot } from './back-plot.tsx';

const percent = (value: number | undefined, digits = 0) =>
  value === undefined ? '' : `${numberText(value, digits)}\u00a0%`;

/** One test of the limb: how much is back, over time, and the table that says the same. */
export function SeriesPart({ lab, series }: { lab: LabId; series: ReturnSeries }) {
  const t = followWords.return;
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const { before, sessions, metric } = series;
  const latest = sessions.at(-1)?.recovered;
  const title = `${testTitle(series.test)}, ${inSentence(metric.title)}`;
  const id = `return-${series.test}-${metric.id}`;
  return (
    <section className="return-series" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <p className="soft">{t.kind[series.kind]}.</p>
      {latest && (
        <p className="return-back">{t.latest(percent(latest.value), percent(latest.low), percent(latest.high))}</p>
      )}
      <p>
        {before === undefined
          ? t.noBefore
          : t.before(valueText(before.value, metric.unit), before.sessions.length, whenText(before.last, false))}
        {before !== undefined && series.error === undefined && ` ${t.noError}`}
      </p>
      {sessions.length === 0 && <p className="soft">{t.after}</p>}
      <div ref={host}>{latest && width > 0 && <BackPlot series={series} width={width} />}</div>
      {sessions.length > 0 && (
        <table className="list return-table">
          <thead>
            <tr>
              <th scope="col">{t.head.when}</th>
              <th scope="col" className="right">
                {t.head.value}
              </th>
              <th scope="col" className="right">
                {t.head.back}
              </th>
              <th scope="col" className="right">
                {t.head.interval}
              </th>
              <th scope="col" className="right">
                {t.head.other}
              </th>
              <th scope="col" className="right soft">
                {t.head.symmetry}
              </th>
            </tr>
          </thead>
          <tbody>
            {sessions.toReversed().map(({ id: session, at, value, recovered, other, symmetry }) => (
              <tr key={session}>
                <th scope="row">
                  <Link className="row-link" to={`/${lab}/sessions/${session}`}>
                    {whenText(at, false)}
                  </Link>
                </th>
                <td className="right number" data-label={t.head.value}>
                  {valueText(value, metric.unit)}
                </td>
                <td className="right number peak">{percent(recovered?.value)}</td>
                <td className="right number" data-label={recovered && t.head.interval}>
                  {recovered === undefined ? '' : `${percent(recovered.low)} to ${percent(recovered.high)}`}
                </td>
                <td className="right number" data-label={other && t.head.other}>
                  {percent(other?.value)}
                </td>
                <td className="right number soft" data-label={symmetry === undefined ? undefined : t.head.symmetry}>
                  {percent(symmetry)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}
