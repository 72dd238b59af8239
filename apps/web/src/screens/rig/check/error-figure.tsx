import type { RigCheckDocumentView, RigCheckResultView } from '@sthene/contract';
import { smallLoad } from '@sthene/core';
import { numberText } from '../../../number/format.ts';
import { rigCheckWords as t } from '../../../words/rig-check.ts';

type PlateFigures = RigCheckResultView['plates'][number];

const [width, height] = [480, 170];
const edge = { left: 46, right: 12, top: 12, bottom: 26 };

/** Error of the readings by load in newtons, up and down, between the limits. */
export function ErrorFigure({ figures, limits }: { figures: PlateFigures; limits: RigCheckDocumentView['limits'] }) {
  const limit = (id: string) => limits.find((one) => one.id === id)?.value ?? 0;
  const allowed = (load: number) =>
    load <= smallLoad ? limit('small-load-error') : (limit('relative-error') / 100) * load;
  const points = (of: 'up' | 'down') =>
    figures.loads.flatMap((one) => (one[of] === undefined ? [] : [{ load: one.load, error: one[of] - one.load }]));
  const top = figures.largestLoad;
  const band = [0, smallLoad, smallLoad * 1.0001, top].filter((load) => load <= top * 1.0001);
  const most =
    Math.max(allowed(top), ...[...points('up'), ...points('down')].map(({ error }) => Math.abs(error))) * 1.1;
  const x = (load: number) => edge.left + (load / top) * (width - edge.left - edge.right);
  const y = (error: number) => edge.top + ((most - error) / (2 * most)) * (height - edge.top - edge.bottom);
  const path = (list: readonly { load: number; error: number }[]) =>
    list.map(({ load, error }, i) => `${i === 0 ? 'M' : 'L'}${x(load).toFixed(1)} ${y(error).toFixed(1)}`).join('');
  const limitPath = (sign: 1 | -1) => path(band.map((load) => ({ load, error: sign * allowed(load) })));
  const step = most > 4 ? Math.ceil(most / 4) * 2 : most > 1 ? 1 : 0.5;
  const ticks = [-step, 0, step].filter((one) => Math.abs(one) <= most);
  return (
    <svg
      className="error-figure"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={t.result.figure(figures.plate)}
    >
      {ticks.map((one) => (
        <g key={one}>
          <path d={`M${edge.left} ${y(one)}H${width - edge.right}`} className={one === 0 ? 'axis' : 'grid'} />
          <text x={edge.left - 6} y={y(one) + 4} textAnchor="end">
            {numberText(one, step < 1 ? 1 : 0)}
          </text>
        </g>
      ))}
      <path d={limitPath(1)} className="limit" />
      <path d={limitPath(-1)} className="limit" />
      <path d={path(points('up'))} className="up" />
      <path d={path(points('down'))} className="down" />
      {points('up').map(({ load, error }) => (
        <circle key={load} cx={x(load)} cy={y(error)} r="3" className="up-point" />
      ))}
      {[0, top / 2, top].map((load) => (
        <text key={load} x={x(load)} y={height - 8} textAnchor={load === top ? 'end' : 'middle'}>
          {numberText(load, 0)}
          {load === top && '\u00a0N'}
        </text>
      ))}
    </svg>
  );
}
