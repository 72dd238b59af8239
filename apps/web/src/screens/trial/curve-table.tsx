import type { Curve } from '@sthene/contract';
import { useState } from 'react';
import { type CurveModel, instantOf, nearestSample } from '../../curve/model.ts';
import { decimalsFor, numberText, unitText } from '../../number/format.ts';
import { words } from '../../words/index.ts';
import { valueAt } from './legend.tsx';
import { resolutionOf } from './numbers.ts';
import type { Stop } from './stops.ts';
import { useShared } from './trial-context.ts';
import { useCurveState } from './use-curve-state.ts';

const rows = 24;

/** The curve as a table: events and evenly spaced instants of the visible window. */
export function CurveTable({ curve, model, stops }: { curve: Curve; model: CurveModel; stops: readonly Stop[] }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="curve-table small" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.curve.table}</summary>
      {open && <Rows curve={curve} model={model} stops={stops} />}
    </details>
  );
}

function Rows({ curve, model, stops }: { curve: Curve; model: CurveModel; stops: readonly Stop[] }) {
  const { controller, view } = useShared();
  const { from, to } = useCurveState(controller, (state) => state.view);
  const resolution = resolutionOf(view.result);
  const instants = new Map<number, string>();
  for (let i = 0; i <= rows; i++) instants.set(nearestSample(model, from + ((to - from) * i) / rows), '');
  for (const stop of stops)
    if (instantOf(model, stop.at) >= from && instantOf(model, stop.at) <= to) instants.set(stop.at, stop.name);
  const samples = [...instants.entries()].sort((a, b) => a[0] - b[0]);
  return (
    <table>
      <caption className="unseen">{words.curve.tableCaption}</caption>
      <thead>
        <tr>
          <th scope="col">{model.timeTitle}</th>
          {model.series.map((series) => (
            <th scope="col" key={series.id} className="right">
              {series.name}, {unitText(curve.unit)}
            </th>
          ))}
          <th scope="col" />
        </tr>
      </thead>
      <tbody>
        {samples.map(([sample, name]) => (
          <tr key={sample}>
            <th scope="row" className="number">
              {numberText(instantOf(model, sample), decimalsFor('s', 0, resolution))}
            </th>
            {model.series.map((series) => {
              const value = valueAt(model, series, sample);
              return (
                <td key={series.id} className="number right">
                  {value === undefined
                    ? words.curve.nothingThere
                    : numberText(value, decimalsFor(curve.unit, value, resolution))}
                </td>
              );
            })}
            <td>{name}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
