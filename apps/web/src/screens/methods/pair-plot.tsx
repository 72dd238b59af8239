import type { ComparedPairs } from '@sthene/contract';
import { useRef } from 'react';
import { numberText, unitText } from '../../number/format.ts';
import { useWidth } from '../../parts/use-width.ts';
import { methodWords } from '../../words/methods.ts';
import { type PlotScale, valueScale } from '../athletes/plot-scale.ts';
import { percentOf } from './values.ts';

const t = methodWords.detail;

interface Drawn {
  readonly x: number;
  readonly y: number;
}

/** Difference of both methods over their mean, with mean difference and limits of agreement; per cent where compared in logs. */
export function DifferencePlot({ found }: { found: ComparedPairs }) {
  const { metric, pairs } = found;
  const log = metric.scale === 'log';
  const shown = (difference: number) => (log ? percentOf(difference) : difference);
  const points = pairs.map(
    ({ first, second }): Drawn =>
      log
        ? { x: Math.sqrt(first * second), y: percentOf(100 * Math.log(second / first)) }
        : { x: (first + second) / 2, y: second - first },
  );
  const limits = metric.study?.limits.ok ? metric.study.limits.value : undefined;
  const lines =
    limits && [limits.lower, limits.bias, limits.upper].map(({ value, low, high }) => [value, low, high].map(shown));
  return (
    <Plot
      title={t.differencePlot}
      xUnit={unitText(metric.unit)}
      yUnit={log ? '%' : unitText(metric.unit)}
      points={points}
      also={[0, ...(lines?.flat() ?? [])]}
    >
      {(x, y) => (
        <>
          <line className="pair-zero" x1={x.from} x2={x.to} y1={y.at(0)} y2={y.at(0)} />
          {lines?.map(([value = 0, low = 0, high = 0], i) => (
            <g key={i === 1 ? 'bias' : `limit ${i}`}>
              <rect
                className="pair-band"
                x={x.from}
                width={x.to - x.from}
                y={y.at(high)}
                height={Math.max(0, y.at(low) - y.at(high))}
              />
              <line
                className={i === 1 ? 'pair-bias' : 'pair-limit'}
                x1={x.from}
                x2={x.to}
                y1={y.at(value)}
                y2={y.at(value)}
              />
            </g>
          ))}
        </>
      )}
    </Plot>
  );
}

/** The second method over the first, with the line of equal values and the least products line. */
export function LinePlot({ found }: { found: ComparedPairs }) {
  const { metric, pairs } = found;
  const points = pairs.map(({ first, second }): Drawn => ({ x: first, y: second }));
  const all = points.flatMap(({ x, y }) => [x, y]);
  const ends = [Math.min(...all), Math.max(...all)] as const;
  const products = metric.study?.leastProducts.ok ? metric.study.leastProducts.value : undefined;
  const fitted = (x: number) => {
    if (products === undefined) return x;
    const { slope, intercept } = products;
    return metric.scale === 'log'
      ? Math.exp((intercept.value + slope.value * 100 * Math.log(x)) / 100)
      : intercept.value + slope.value * x;
  };
  const steps = Array.from({ length: 25 }, (_, i) => ends[0] + (i / 24) * (ends[1] - ends[0]));
  return (
    <Plot
      title={t.linePlot}
      xUnit={unitText(metric.unit)}
      yUnit={unitText(metric.unit)}
      points={points}
      also={[...all, ...steps.map(fitted)]}
      alsoX={all}
    >
      {(x, y) => (
        <>
          <line className="pair-zero" x1={x.at(ends[0])} y1={y.at(ends[0])} x2={x.at(ends[1])} y2={y.at(ends[1])} />
          {products && (
            <polyline
              className="pair-bias"
              points={steps.map((at) => `${x.at(at).toFixed(1)},${y.at(fitted(at)).toFixed(1)}`).join(' ')}
            />
          )}
        </>
      )}
    </Plot>
  );
}

interface Axis extends PlotScale {
  readonly from: number;
  readonly to: number;
}

interface PlotProps {
  readonly title: string;
  readonly xUnit: string;
  readonly yUnit: string;
  readonly points: readonly Drawn[];
  /** Further values the axes must hold. */
  readonly also?: readonly number[];
  readonly alsoX?: readonly number[];
  readonly children: (x: Axis, y: Axis) => React.ReactNode;
}

function Plot({ title, xUnit, yUnit, points, also = [], alsoX = [], children }: PlotProps) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const height = Math.round(Math.min(360, Math.max(220, width * 0.62)));
  const [left, right, top, bottom] = [62, width - 10, 12, height - 30];
  const xs = valueScale([...points.map(({ x }) => x), ...alsoX], left, right);
  const ys = valueScale([...points.map(({ y }) => y), ...also], bottom, top);
  const x = { ...xs, from: left, to: right };
  const y = { ...ys, from: bottom, to: top };
  return (
    <figure className="pair-plot">
      <figcaption>
        {title}
        <span className="soft">
          {' '}
          ({yUnit || '1'} over {xUnit || '1'})
        </span>
      </figcaption>
      <div ref={host}>
        {width > 0 && points.length > 0 && (
          // The tables beside it hold the numbers.
          <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
            <rect className="pair-ground" x={left} y={top} width={Math.max(0, right - left)} height={bottom - top} />
            {y.ticks.map((tick) => (
              <g key={tick}>
                <line className="pair-grid" x1={left} x2={right} y1={y.at(tick)} y2={y.at(tick)} />
                <text className="pair-tick" x={left - 7} y={y.at(tick) + 4} textAnchor="end">
                  {tickText(tick, y.ticks)}
                </text>
              </g>
            ))}
            {every(x.ticks, width < 420 ? 2 : 1).map((tick) => (
              <g key={tick}>
                <line className="pair-grid" x1={x.at(tick)} x2={x.at(tick)} y1={top} y2={bottom} />
                <text className="pair-tick" x={x.at(tick)} y={height - 10} textAnchor="middle">
                  {tickText(tick, x.ticks)}
                </text>
              </g>
            ))}
            {points.map((one, i) => (
              <circle
                key={i}
                className="pair-point"
                cx={x.at(one.x)}
                cy={y.at(one.y)}
                r={points.length > 300 ? 2.2 : 3.4}
              />
            ))}
            {children(x, y)}
          </svg>
        )}
      </div>
    </figure>
  );
}

const every = <T,>(list: readonly T[], n: number): readonly T[] => list.filter((_, i) => i % n === 0);

/** As many decimals as tell the ticks apart. */
function tickText(tick: number, ticks: readonly number[]): string {
  const step = Math.abs((ticks[1] ?? 1) - (ticks[0] ?? 0)) || 1;
  return numberText(tick, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
}
