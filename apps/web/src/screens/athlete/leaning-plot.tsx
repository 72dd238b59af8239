import type { AsymmetryView } from '@sthene/contract';
import { signedText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { Axes } from '../../parts/axes.tsx';
import { timeScale, valueScale } from '../athletes/plot-scale.ts';

interface PlotProps {
  readonly view: AsymmetryView;
  readonly width: number;
  readonly injuries: readonly { readonly at: number; readonly text: string }[];
}

/** Where a label stands beside its line: behind it, else before it, else up to the right edge, so that it is never cut off. */
function besideLine(at: number, text: string, left: number, right: number) {
  // Of the small mono type.
  const wide = 7 * text.length;
  if (at + 4 + wide <= right) return { x: at + 4 };
  return { x: at - 4 - wide >= left ? at - 4 : right - 2, textAnchor: 'end' as const };
}

/** Signed share of left and right over time: right above zero, left below, the noise as a band. */
export function LeaningPlot({ view, width, injuries }: PlotProps) {
  const height = 170;
  const [left, right, top, bottom] = [58, width - 14, 10, height - 26];
  const band = view.detectable ?? 0;
  const reach = Math.max(band, ...view.sessions.map(({ value }) => Math.abs(value)), 1);
  const y = valueScale([-reach, reach], bottom, top);
  const x = timeScale(
    view.sessions.map(({ at }) => Date.parse(at)),
    left,
    right,
    width < 500 ? 4 : 8,
  );
  const trail = view.sessions.map(({ at, value }) => `${x.at(Date.parse(at)).toFixed(1)},${y.at(value).toFixed(1)}`);
  const title = view.sessions
    .map(({ at, value }) => `${whenText(at, false)}: ${signedText(value, 1)} % ${value > 0 ? 'right' : 'left'}`)
    .join('; ');
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={title}>
      <Axes
        edges={{ left, right, top, bottom }}
        up={y.ticks.map((tick) => ({ at: y.at(tick), text: signedText(tick, 0) }))}
        along={x.ticks.map(({ at, text }) => ({ at: x.at(at), text }))}
        upright={false}
      >
        {band > 0 && (
          <rect
            className="follow-band"
            x={left}
            y={y.at(band)}
            width={right - left}
            height={y.at(-band) - y.at(band)}
          />
        )}
      </Axes>
      <line className="leaning-zero" x1={left} x2={right} y1={y.at(0)} y2={y.at(0)} />
      {injuries.map(({ at, text }) => (
        <g key={at}>
          <line className="leaning-injury" x1={x.at(at)} x2={x.at(at)} y1={top} y2={bottom} />
          <text className="axes-tick" {...besideLine(x.at(at), text, left, right)} y={bottom - 5}>
            {text}
          </text>
        </g>
      ))}
      <text className="leaning-side leaning-right" x={left + 6} y={top + 15}>
        R
      </text>
      <text className="leaning-side leaning-left" x={left + 6} y={bottom - 6}>
        L
      </text>
      <polyline className="follow-trail" points={trail.join(' ')} />
      {view.sessions.map(({ id, at, value, familiarisation }) => (
        <circle
          key={id}
          className={`follow-point leaning-point ${familiarisation ? 'first' : value > 0 ? 'leaning-right' : 'leaning-left'}`}
          cx={x.at(Date.parse(at))}
          cy={y.at(value)}
          r={4.5}
        />
      ))}
    </svg>
  );
}
