import type { LabId, RatioView } from '@sthene/contract';
import { useRef } from 'react';
import { Link } from 'react-router';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { Axes } from '../../parts/axes.tsx';
import { useWidth } from '../../parts/use-width.ts';
import { batteryWords as t } from '../../words/battery.ts';
import { timeScale, valueScale } from '../athletes/plot-scale.ts';
import { ratioText } from './values.ts';

/** A ratio over time with its intervals and the limits of the words. The table behind it says the same. */
export function RatioHistory({ lab, view }: { lab: LabId; view: RatioView }) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const { history, limits, unit } = view;
  const height = 190;
  const [left, right, top, bottom] = [52, width - 12, 8, height - 26];
  const ends = history.flatMap(({ value, interval }) => [value, interval?.low ?? value, interval?.high ?? value]);
  const y = valueScale([...ends, ...limits], bottom, top);
  const x = timeScale(
    history.map(({ at }) => Date.parse(at)),
    left,
    right,
    width < 420 ? 3 : 5,
  );
  return (
    <div className="battery-history">
      <h3>{t.history}</h3>
      <div ref={host}>
        {width > 0 && (
          <svg
            className="battery-svg"
            width={width}
            height={height}
            viewBox={`0 0 ${width} ${height}`}
            aria-hidden="true"
          >
            <Axes
              edges={{ left, right, top, bottom }}
              up={y.ticks.map((tick) => ({ at: y.at(tick), text: tickOf(tick, y.ticks) }))}
              along={x.ticks.map(({ at, text }) => ({ at: x.at(at), text }))}
              upright={false}
            />
            {limits.map((limit) => (
              <line key={limit} className="battery-limit" x1={left} x2={right} y1={y.at(limit)} y2={y.at(limit)} />
            ))}
            <polyline
              className="follow-trail"
              points={history
                .map(({ at, value }) => `${x.at(Date.parse(at)).toFixed(1)},${y.at(value).toFixed(1)}`)
                .join(' ')}
            />
            {history.map(({ at, value, interval }, i) => (
              <g key={at}>
                {interval && (
                  <path
                    className="battery-whisker"
                    d={`M${x.at(Date.parse(at))} ${y.at(interval.low)}V${y.at(interval.high)}M${x.at(Date.parse(at)) - 4} ${y.at(interval.low)}h8M${x.at(Date.parse(at)) - 4} ${y.at(interval.high)}h8`}
                  />
                )}
                <circle
                  className={`follow-point ${i === history.length - 1 ? 'newest' : 'own'}`}
                  cx={x.at(Date.parse(at))}
                  cy={y.at(value)}
                  r={i === history.length - 1 ? 6 : 4.5}
                />
              </g>
            ))}
          </svg>
        )}
      </div>
      <details className="follow-parts battery-table">
        <summary>{t.every(history.length)}</summary>
        <table className="list">
          <thead>
            <tr>
              <th scope="col">{t.historyTable.when}</th>
              <th scope="col">{t.historyTable.value}</th>
              <th scope="col">{t.historyTable.interval}</th>
              <th scope="col">{t.historyTable.word}</th>
            </tr>
          </thead>
          <tbody>
            {history.toReversed().map(({ at, value, interval, word, sessions }) => (
              <tr key={at}>
                <th scope="row">
                  <Link to={`/${lab}/sessions/${sessions[0]}`}>{whenText(at, false)}</Link>
                </th>
                <td className="number" data-label={t.historyTable.value}>
                  {ratioText(value, unit)}
                </td>
                <td className="number" data-label={t.historyTable.interval}>
                  {interval && `${ratioText(interval.low, unit)} to ${ratioText(interval.high, unit)}`}
                </td>
                <td>{t.word[word]}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </div>
  );
}

/** As many decimals as tell neighbouring ticks apart. */
export function tickOf(tick: number, ticks: readonly number[]): string {
  const step = Math.abs((ticks[1] ?? 1) - (ticks[0] ?? 0)) || 1;
  return numberText(tick, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
}
