import type { ReturnSeries } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { Axes } from '../../parts/axes.tsx';
import { timeScale, valueScale } from '../athletes/plot-scale.ts';

/** Per cent of the limb's own value before, each session with its interval; the other limb hollow beside it. */
export function BackPlot({ series, width }: { series: ReturnSeries; width: number }) {
  const height = 220;
  const [left, right, top, bottom] = [58, width - 14, 10, height - 26];
  const shown = series.sessions.flatMap(({ at, recovered, other }) =>
    recovered === undefined ? [] : [{ at: Date.parse(at), recovered, other }],
  );
  const edges = shown.flatMap(({ recovered, other }) => [
    recovered.low,
    recovered.high,
    ...(other ? [other.value] : []),
  ]);
  const y = valueScale([...edges, 100], bottom, top);
  const x = timeScale(
    shown.map(({ at }) => at),
    left,
    right,
    width < 500 ? 4 : 8,
  );
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <Axes
        edges={{ left, right, top, bottom }}
        up={y.ticks.map((tick) => ({ at: y.at(tick), text: `${numberText(tick, 0)}\u00a0%` }))}
        along={x.ticks.map(({ at, text }) => ({ at: x.at(at), text }))}
        upright={false}
      />
      <line className="return-whole" x1={left} x2={right} y1={y.at(100)} y2={y.at(100)} />
      {shown.map(({ at, recovered, other }) => (
        <g key={at}>
          <line
            className="return-interval"
            x1={x.at(at)}
            x2={x.at(at)}
            y1={y.at(recovered.low)}
            y2={y.at(recovered.high)}
          />
          {other && <circle className="return-other" cx={x.at(at)} cy={y.at(other.value)} r={5} />}
          <circle className="return-point" cx={x.at(at)} cy={y.at(recovered.value)} r={5} />
        </g>
      ))}
    </svg>
  );
}
