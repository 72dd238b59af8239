import type { AthleteChange, AthleteSession, AthleteView, LabId } from '@sthene/contract';
import { useRef } from 'react';
import { Link } from 'react-router';
import { unitText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { Axes } from '../../parts/axes.tsx';
import { useWidth } from '../../parts/use-width.ts';
import { athleteWords } from '../../words/athletes.ts';
import { timeScale, valueScale } from '../athletes/plot-scale.ts';
import { tickText, valueText } from '../athletes/values.ts';
import { ReceivedMarks } from './received-marks.tsx';

type Placed = { readonly at: string; readonly value: number };
type Valued = AthleteSession & { readonly value: number };
const hasValue = (session: AthleteSession): session is Valued => session.value !== undefined;

interface PlotProps {
  readonly lab: LabId;
  readonly view: AthleteView;
  readonly change: AthleteChange | undefined;
}

/** The metric over time: each session a point, the reference a line, the noise band about it. The table below says the same. */
export function MetricPlot({ lab, view, change }: PlotProps) {
  const t = athleteWords.plot;
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const sessions = view.sessions.filter(hasValue).filter(({ unit }) => unit === view.metric.unit);
  const lines = view.received.filter(({ unit }) => unit === view.metric.unit);
  const foreign = lines.flatMap(({ points }) => points);
  if (sessions.length === 0 && foreign.length === 0) return null;
  const height = Math.round(Math.min(340, Math.max(220, width * 0.36)));
  const left = 58;
  const [right, top, bottom] = [width - 14, 14, height - 28];
  const band = change?.band;
  const targets = view.targets.map(({ value }) => value);
  const shown = [...sessions, ...foreign].map(({ value }) => value);
  const y = valueScale([...shown, ...(band ? [band.low, band.high] : []), ...targets], bottom, top);
  const x = timeScale(
    [...sessions, ...foreign].map(({ at }) => Date.parse(at)),
    left,
    right,
    width < 500 ? 4 : 8,
  );
  const place = ({ at, value }: Placed): readonly [number, number] => [x.at(Date.parse(at)), y.at(value)];
  const newest = sessions.at(-1);
  const trail = sessions
    .map((one) =>
      place(one)
        .map((pixel) => pixel.toFixed(1))
        .join(','),
    )
    .join(' ');
  return (
    <figure className="follow-plot">
      <figcaption>
        <h2>
          {t.title(view.metric.title)}
          <span className="soft">, {unitText(view.metric.unit)}</span>
        </h2>
        {band && (
          <p className="small soft">
            <i className="follow-band-key" aria-hidden="true" /> {t.band}: {valueText(band.low, view.metric.unit)} to{' '}
            {valueText(band.high, view.metric.unit)}
          </p>
        )}
      </figcaption>
      <div ref={host}>
        {width > 0 && (
          // The table below holds every value of it; the points are ways to the sessions.
          <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
            <Axes
              edges={{ left, right, top, bottom }}
              up={y.ticks.map((tick) => ({ at: y.at(tick), text: tickText(tick, view.metric.unit) }))}
              along={x.ticks.map(({ at, text }) => ({ at: x.at(at), text }))}
            >
              {band && change && (
                <>
                  <rect
                    className="follow-band"
                    x={left}
                    y={y.at(band.high)}
                    width={right - left}
                    height={Math.max(0, y.at(band.low) - y.at(band.high))}
                  />
                  <line
                    className="follow-reference"
                    x1={left}
                    x2={right}
                    y1={y.at(change.value)}
                    y2={y.at(change.value)}
                  />
                </>
              )}
            </Axes>
            {view.targets.map(({ value, until }) => (
              <g key={`${value} ${until ?? ''}`}>
                <line className="follow-target-line" x1={left} x2={right} y1={y.at(value)} y2={y.at(value)} />
                <text className="follow-target-text" x={left + 6} y={y.at(value) - 5}>
                  {t.target(valueText(value, view.metric.unit), until === undefined ? '' : whenText(until, false))}
                </text>
              </g>
            ))}
            {sessions.map((one) =>
              one.newMethod === undefined ? null : (
                <g key={one.id}>
                  <line className="follow-method" x1={place(one)[0]} x2={place(one)[0]} y1={top} y2={bottom} />
                  <text className="axes-tick" x={place(one)[0] + 5} y={top + 13}>
                    {t.newMethod(one.newMethod)}
                  </text>
                </g>
              ),
            )}
            <ReceivedMarks lab={lab} lines={lines} place={place} unit={view.metric.unit} />
            <polyline className="follow-trail" points={trail} />
            {sessions.map((one) => (
              <Point
                key={one.id}
                lab={lab}
                session={one}
                place={place(one)}
                kind={one.familiarisation ? 'first' : one === newest ? 'newest' : 'own'}
                best={one.id === view.best}
                unit={view.metric.unit}
              />
            ))}
          </svg>
        )}
      </div>
      {sessions.some(({ familiarisation }) => familiarisation) && (
        <p className="small soft">
          <i className="follow-first-key" aria-hidden="true" /> {t.first}
        </p>
      )}
    </figure>
  );
}

interface PointProps {
  readonly lab: LabId;
  readonly session: Valued;
  readonly place: readonly [number, number];
  readonly kind: 'first' | 'newest' | 'own';
  readonly best: boolean;
  readonly unit: string;
}

function Point({ lab, session, place: [x, y], kind, best, unit }: PointProps) {
  const t = athleteWords.plot;
  return (
    <Link to={`/${lab}/sessions/${session.id}`} tabIndex={-1}>
      <title>{`${whenText(session.at, false)}: ${valueText(session.value, unit)}`}</title>
      <circle className="follow-target" cx={x} cy={y} r={14} />
      <circle className={`follow-point ${kind}`} cx={x} cy={y} r={kind === 'newest' ? 6 : 4.5} />
      {best && (
        <text className="follow-mark" x={x} y={y - 11} textAnchor="middle">
          {t.best}
        </text>
      )}
    </Link>
  );
}
