import type { RigCheckDocumentView, RigCheckResultView } from '@sthene/contract';
import { smallLoad } from '@sthene/core';
import { Axes } from '../../../parts/axes.tsx';
import { Drawn } from '../../../parts/drawn.tsx';
import { rigCheckWords as t } from '../../../words/rig-check.ts';
import { valueScale } from '../../athletes/plot-scale.ts';

type PlateFigures = RigCheckResultView['plates'][number];
interface ErrorAt {
  readonly load: number;
  readonly error: number;
}

const height = 180;

/** Error of the readings by load in newtons, up and down, between the limits. */
export function ErrorFigure({ figures, limits }: { figures: PlateFigures; limits: RigCheckDocumentView['limits'] }) {
  return (
    <figure className="error-figure">
      <figcaption className="small soft">{t.result.errors}</figcaption>
      <Drawn height={height} label={t.result.figure(figures.plate)}>
        {(width) => <Plot figures={figures} limits={limits} width={width} />}
      </Drawn>
    </figure>
  );
}

function Plot({ figures, limits, width }: Parameters<typeof ErrorFigure>[0] & { readonly width: number }) {
  const limit = (id: string) => limits.find((one) => one.id === id)?.value ?? 0;
  const allowed = (load: number) =>
    load <= smallLoad ? limit('small-load-error') : (limit('relative-error') / 100) * load;
  const points = (of: 'up' | 'down') =>
    figures.loads.flatMap((one) => (one[of] === undefined ? [] : [{ load: one.load, error: one[of] - one.load }]));
  const [up, down] = [points('up'), points('down')];
  const top = figures.largestLoad;
  const band = [0, smallLoad, smallLoad * 1.0001, top].filter((load) => load <= top * 1.0001);
  const most = Math.max(allowed(top), ...[...up, ...down].map(({ error }) => Math.abs(error)));
  const edges = { left: 52, right: width - 10, top: 8, bottom: height - 26 };
  const x = valueScale([0, top], edges.left, edges.right);
  const y = valueScale([-most, most], edges.bottom, edges.top);
  const path = (list: readonly ErrorAt[]) =>
    list
      .map(({ load, error }, i) => `${i === 0 ? 'M' : 'L'}${x.at(load).toFixed(1)} ${y.at(error).toFixed(1)}`)
      .join('');
  const limitPath = (sign: 1 | -1) => path(band.map((load) => ({ load, error: sign * allowed(load) })));
  return (
    <>
      <Axes
        edges={edges}
        up={y.marks}
        along={x.marks.map(({ at, text }) => ({ at, text: `${text}\u00a0N` }))}
        upright={false}
      />
      <path d={limitPath(1)} className="limit" />
      <path d={limitPath(-1)} className="limit" />
      <path d={path(up)} className="up" />
      <path d={path(down)} className="down" />
      {up.map(({ load, error }) => (
        <circle key={load} cx={x.at(load)} cy={y.at(error)} r="3" className="up-point" />
      ))}
    </>
  );
}
