import type { ProfileFacts } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { Axes } from '../../parts/axes.tsx';
import { Drawn } from '../../parts/drawn.tsx';
import { batteryWords } from '../../words/battery.ts';
import { valueScale } from '../athletes/plot-scale.ts';

const loadText = (load: number): string => batteryWords.profile.load(numberText(load, load % 1 === 0 ? 0 : 1));

/** Mean force over mean velocity: a point for each load, the line through them, dashed where nothing was measured. */
export function ProfilePlot({ facts: { points, line } }: { facts: ProfileFacts }) {
  // The table below holds every number of it.
  return (
    <Drawn
      className="battery-plot battery-drawn"
      height={(width) => Math.round(Math.min(320, Math.max(230, width * 0.6)))}
    >
      {(width, height) => <Plot points={points} line={line} width={width} height={height} />}
    </Drawn>
  );
}

interface PlotProps extends Pick<ProfileFacts, 'points' | 'line'> {
  readonly width: number;
  readonly height: number;
}

function Plot({ points, line, width, height }: PlotProps) {
  const [left, right, top, bottom] = [58, width - 16, 12, height - 40];
  const y = valueScale([0, ...points.map(({ force }) => force), ...(line ? [line.f0] : [])], bottom, top);
  const x = valueScale([0, ...points.map(({ velocity }) => velocity), ...(line ? [line.v0] : [])], left, right);
  const velocities = points.map(({ velocity }) => velocity);
  const [slow, fast] = [Math.min(...velocities), Math.max(...velocities)];
  const forceAt = (velocity: number) => (line ? line.f0 + line.slope * velocity : 0);
  const piece = (from: number, to: number) =>
    `M${x.at(from).toFixed(1)} ${y.at(forceAt(from)).toFixed(1)}L${x.at(to).toFixed(1)} ${y.at(forceAt(to)).toFixed(1)}`;
  return (
    <>
      <Axes edges={{ left, right, top, bottom }} up={y.marks} along={x.marks} />
      <text className="axes-tick" x={left + 6} y={top + 14}>
        N
      </text>
      <text className="axes-tick" x={right} y={height - 4} textAnchor="end">
        m/s
      </text>
      {line && (
        <>
          <path className="battery-line" d={piece(slow, fast)} />
          <path className="battery-line beyond" d={`${piece(0, slow)}${piece(fast, line.v0)}`} />
        </>
      )}
      {points.map(({ load, force, velocity }, i) => (
        <g key={load}>
          <circle className="follow-point newest" cx={x.at(velocity)} cy={y.at(force)} r={5.5} />
          {/* Points of neighbouring loads lie close: the first and the last are named, on either side of the line. */}
          {i === 0 && (
            <text className="battery-load" x={x.at(velocity) - 8} y={y.at(force) + 16} textAnchor="end">
              {loadText(load)}
            </text>
          )}
          {i > 0 && i === points.length - 1 && (
            <text className="battery-load" x={x.at(velocity) + 8} y={y.at(force) - 9}>
              {loadText(load)}
            </text>
          )}
        </g>
      ))}
    </>
  );
}
