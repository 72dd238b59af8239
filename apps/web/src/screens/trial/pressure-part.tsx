import type { PressurePart as Part, TrialPressure } from '@sthene/contract';
import { Fragment, useRef } from 'react';
import { usePressure } from '../../data/queries.ts';
import { numberText } from '../../number/format.ts';
import { Axes } from '../../parts/axes.tsx';
import { useWidth } from '../../parts/use-width.ts';
import { words } from '../../words/index.ts';
import { groundOf } from './pressure-ground.ts';
import { useShared } from './trial-context.ts';
import './pressure.css';

const t = words.curve.pressure;

/** Where the force acts on the plates, for recordings that tell; nothing for others. */
export function PressurePart() {
  const { lab, view } = useShared();
  const { data } = usePressure(lab, view.id, view.provenance.computedAt);
  return data === undefined || data.plates.length === 0 ? null : <Shown data={data} />;
}

/** Mounted with the data, so that the width is measured of what is there. */
function Shown({ data }: { data: TrialPressure }) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const floor = data.axes === 'laboratory';
  const [first] = data.plates;
  return (
    <details className="value-group pressure-part" open>
      <summary>{t.title}</summary>
      <p className="small soft">{floor ? t.helpFloor : t.helpPlate}</p>
      <ul className="pressure-key small" aria-hidden="true">
        {(['still', 'effort'] as const).map((of) => (
          <li key={of}>
            <svg width="34" height="12" role="presentation">
              <path d="M1 6H33" className={`pressure-path ${of}`} />
            </svg>
            {t.parts[of]}
          </li>
        ))}
      </ul>
      <div ref={host} className="pressure-figures">
        {width > 0 &&
          (floor ? (
            <>
              <Figure plates={data.plates} combined={data.combined} width={width} name={t.all} />
              <Figure
                plates={[]}
                combined={data.combined ?? first?.parts}
                width={width}
                name={t.near(data.combined === undefined ? (first?.name ?? '') : t.together)}
              />
            </>
          ) : (
            data.plates.map((plate) => (
              <Fragment key={plate.name}>
                {plate.outline && <Figure plates={[plate]} width={width} name={plate.name} mirrored={plate.mirrored} />}
                <Figure
                  {...{ plates: [], combined: plate.parts, width }}
                  name={t.near(plate.name)}
                  mirrored={plate.mirrored}
                />
              </Fragment>
            ))
          ))}
      </div>
      <PathTable pressure={data} />
    </details>
  );
}

interface FigureProps {
  readonly plates: TrialPressure['plates'];
  readonly combined?: readonly Part[] | undefined;
  readonly width: number;
  readonly name: string;
  /** Of a plate's own axes, from above. */
  readonly mirrored?: boolean;
}

/** The floor from above, one millimetre as long along as up. */
function Figure({ plates, combined, width, name, mirrored = false }: FigureProps) {
  const { edges, height, x, y } = groundOf(plates, combined ?? [], width, mirrored);
  const line = ({ points }: Part) => {
    let pen = 'M';
    let path = '';
    for (const point of points) {
      if (point === null) pen = 'M';
      else {
        path += `${pen}${x.at(point[0]).toFixed(1)} ${y.at(point[1]).toFixed(1)}`;
        pen = 'L';
      }
    }
    return path;
  };
  const paths = (parts: readonly Part[], kind: string) =>
    parts.map((part) => <path key={kind + part.of} d={line(part)} className={`pressure-path ${part.of}`} />);
  return (
    <figure>
      <figcaption className="small">{name}</figcaption>
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={t.figure(name)}>
        <Axes
          edges={edges}
          up={y.ticks.map((tick) => ({ at: y.at(tick), text: numberText(tick, 0) }))}
          along={x.ticks.map((tick) => ({ at: x.at(tick), text: numberText(tick, 0) }))}
        />
        {plates.map(({ name: plate, outline }) =>
          outline === undefined ? null : (
            <polygon
              key={plate}
              className="pressure-plate"
              points={outline.map(([a, b]) => `${x.at(a).toFixed(1)},${y.at(b).toFixed(1)}`).join(' ')}
            />
          ),
        )}
        {plates.map(({ name: plate, parts }) => (
          <g key={plate}>{paths(parts, plate)}</g>
        ))}
        {combined && <g>{paths(combined, '')}</g>}
        <text className="axes-tick" x={edges.right} y={height - 4} textAnchor="end">
          {t.unit}
        </text>
      </svg>
    </figure>
  );
}

/** Range of each path in numbers. */
function PathTable({ pressure }: { pressure: TrialPressure }) {
  const rows = [
    ...pressure.plates.map(({ name, parts }) => ({ name, parts })),
    ...(pressure.combined === undefined ? [] : [{ name: t.together, parts: pressure.combined }]),
  ];
  return (
    <table className="pressure-table small">
      <caption className="unseen">{t.table}</caption>
      <thead>
        <tr>
          <th scope="col">{t.head.where}</th>
          <th scope="col">{t.head.when}</th>
          <th scope="col" className="end">
            {t.head.mean(pressure.names)}
          </th>
          <th scope="col" className="end">
            {t.head.range(pressure.names)}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.flatMap(({ name, parts }) =>
          parts.map(({ of, figures: { mean, range } }) => (
            <tr key={name + of}>
              <th scope="row">{name}</th>
              <td>{t.parts[of]}</td>
              <td className="end number">{mean.map((value) => numberText(value, 0)).join(' / ')}</td>
              <td className="end number">{range.map((value) => numberText(value, 0)).join(' / ')}</td>
            </tr>
          )),
        )}
      </tbody>
    </table>
  );
}
