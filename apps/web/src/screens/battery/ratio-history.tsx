import type { LabId, RatioView } from '@sthene/contract';
import { Link } from 'react-router';
import { whenText } from '../../number/when.ts';
import { Axes } from '../../parts/axes.tsx';
import { Drawn } from '../../parts/drawn.tsx';
import { batteryWords as t } from '../../words/battery.ts';
import { timeScale, valueScale } from '../athletes/plot-scale.ts';
import { ratioText } from './values.ts';

const height = 190;

/** A ratio over time with its intervals and the limits of the words. The table behind it says the same. */
export function RatioHistory({ lab, view }: { lab: LabId; view: RatioView }) {
  const { history, limits, unit } = view;
  return (
    <div className="battery-history">
      <h3>{t.history}</h3>
      <Drawn className="battery-drawn" height={height}>
        {(width) => <Plot history={history} limits={limits} width={width} />}
      </Drawn>
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

function Plot({ history, limits, width }: Pick<RatioView, 'history' | 'limits'> & { readonly width: number }) {
  const [left, right, top, bottom] = [52, width - 12, 8, height - 26];
  const ends = history.flatMap(({ value, interval }) => [value, interval?.low ?? value, interval?.high ?? value]);
  const y = valueScale([...ends, ...limits], bottom, top);
  const x = timeScale(
    history.map(({ at }) => Date.parse(at)),
    left,
    right,
    width < 420 ? 3 : 5,
  );
  const placed = history.map(({ at, value, interval }) => ({ at, x: x.at(Date.parse(at)), y: y.at(value), interval }));
  return (
    <>
      <Axes
        edges={{ left, right, top, bottom }}
        up={y.marks}
        along={x.ticks.map(({ at, text }) => ({ at: x.at(at), text }))}
        upright={false}
      />
      {limits.map((limit) => (
        <line key={limit} className="battery-limit" x1={left} x2={right} y1={y.at(limit)} y2={y.at(limit)} />
      ))}
      <polyline
        className="follow-trail"
        points={placed.map((one) => `${one.x.toFixed(1)},${one.y.toFixed(1)}`).join(' ')}
      />
      {placed.map((one, i) => (
        <g key={one.at}>
          {one.interval && (
            <path
              className="battery-whisker"
              d={`M${one.x} ${y.at(one.interval.low)}V${y.at(one.interval.high)}M${one.x - 4} ${y.at(one.interval.low)}h8M${one.x - 4} ${y.at(one.interval.high)}h8`}
            />
          )}
          <circle
            className={`follow-point ${i === placed.length - 1 ? 'newest' : 'own'}`}
            cx={one.x}
            cy={one.y}
            r={i === placed.length - 1 ? 6 : 4.5}
          />
        </g>
      ))}
    </>
  );
}
