import type { CurvesView, SessionCurve } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { Axes } from '../../parts/axes.tsx';
import { followWords } from '../../words/follow.ts';
import { valueScale } from '../athletes/plot-scale.ts';
import { tickText } from '../athletes/values.ts';

/** Told apart by dash and by number as well as by colour. */
const dashes = ['', '8 4', '2 3', '10 3 2 3', '5 5', '1 5'];

/** Mean curves with a band of one SD. */
export function CurvesPlot({ view, width }: { view: CurvesView; width: number }) {
  const t = followWords.curves;
  const height = Math.round(Math.min(380, Math.max(230, width * 0.4)));
  const [left, right, top, bottom] = [58, width - 14, 10, height - 40];
  const last = Math.max(...view.curves.map(({ start, mean }) => start + mean.length - 1), 1);
  const [from, to] = [view.time[0] ?? 0, view.time[last] ?? 1];
  const x = (time: number) => left + ((time - from) / (to - from)) * (right - left);
  const edges = view.curves.flatMap(({ mean, sd }) => mean.map((value, i) => value + (sd?.[i] ?? 0)));
  const y = valueScale([0, ...edges], bottom, top);
  const at = ({ start }: SessionCurve, i: number) => x(view.time[start + i] ?? 0);
  const seconds = view.time.filter((time) => Math.abs(time * 2 - Math.round(time * 2)) < 1e-9 && time <= to);
  return (
    <>
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={t.summary(view.curves.length)}
      >
        <Axes
          edges={{ left, right, top, bottom }}
          up={y.ticks.map((tick) => ({ at: y.at(tick), text: tickText(tick, view.unit) }))}
          along={seconds.map((time) => ({ at: x(time), text: numberText(time, 1) }))}
        />
        <text className="axes-tick" x={(left + right) / 2} y={height - 6} textAnchor="middle">
          {t.axis}
        </text>
        <line className="leaning-zero" x1={x(0)} x2={x(0)} y1={top} y2={bottom} />
        {view.curves.map((curve, i) => {
          const { mean, sd } = curve;
          if (sd === undefined || sd.length === 0) return null;
          const upper = mean.map((value, j) => `${at(curve, j).toFixed(1)},${y.at(value + (sd[j] ?? 0)).toFixed(1)}`);
          const lower = mean.map((value, j) => `${at(curve, j).toFixed(1)},${y.at(value - (sd[j] ?? 0)).toFixed(1)}`);
          return (
            <polygon
              key={curve.session}
              className={`curves-band curves-${i}`}
              points={[...upper, ...lower.toReversed()].join(' ')}
            />
          );
        })}
        {view.curves.map((curve, i) => (
          <polyline
            key={curve.session}
            className={`curves-line curves-${i}`}
            strokeDasharray={dashes[i]}
            points={curve.mean.map((value, j) => `${at(curve, j).toFixed(1)},${y.at(value).toFixed(1)}`).join(' ')}
          />
        ))}
      </svg>
      <ul className="curves-key">
        {view.curves.map(({ session, at: when, n, left: out }, i) => (
          <li key={session}>
            <svg width={34} height={10} aria-hidden="true">
              <line className={`curves-line curves-${i}`} strokeDasharray={dashes[i]} x1={0} x2={34} y1={5} y2={5} />
            </svg>
            {t.of(whenText(when, false), n)}
            {out > 0 && <span className="small soft">, {t.leftOut(out)}</span>}
          </li>
        ))}
      </ul>
    </>
  );
}
