import type { Curve } from '@sthene/contract';
import { type CurveModel, instantOf, type Series } from '../../curve/model.ts';
import { decimalsFor, numberText, signedText, unitText } from '../../number/format.ts';
import { words } from '../../words/index.ts';
import { resolutionOf } from './numbers.ts';
import { useShared } from './trial-context.ts';
import { useCurveState } from './use-curve-state.ts';

/** What each line is, its force at the cursor, and the difference of the two markers. */
export function Legend({ curve, model }: { curve: Curve; model: CurveModel }) {
  const { controller, view } = useShared();
  const overlay = useCurveState(controller, (state) => state.overlay);
  const resolution = resolutionOf(view.result);
  const time = (sample: number) => numberText(instantOf(model, sample), decimalsFor('s', 0, resolution));
  const force = (series: Series, sample: number) => {
    const value = valueAt(model, series, sample);
    return value === undefined
      ? words.curve.nothingThere
      : numberText(value, decimalsFor(curve.unit, value, resolution));
  };
  const { cursor, a, b } = overlay;
  return (
    <div className="legend">
      <ul aria-label={words.curve.legend}>
        {model.series.map((series) => (
          <li key={series.id} className={`line-${series.ink}`}>
            <svg width="28" height="10" aria-hidden="true">
              <line
                x1="1"
                x2="27"
                y1="5"
                y2="5"
                stroke="currentColor"
                strokeWidth={series.width + 0.3}
                strokeDasharray={series.dash?.join(' ')}
              />
            </svg>
            {series.name}
            {cursor !== undefined && <b className="number">{force(series, cursor)}</b>}
          </li>
        ))}
      </ul>
      {cursor !== undefined && (
        <span className="legend-cursor">
          <b className="number">{time(cursor)}</b> s
        </span>
      )}
      {(a !== undefined || b !== undefined) && (
        <span className="legend-markers">
          {a !== undefined && (
            <Marker
              name="A"
              time={time(a)}
              force={model.series[0] ? force(model.series[0], a) : ''}
              unit={curve.unit}
            />
          )}
          {b !== undefined && (
            <Marker
              name="B"
              time={time(b)}
              force={model.series[0] ? force(model.series[0], b) : ''}
              unit={curve.unit}
            />
          )}
          {a !== undefined && b !== undefined && <Difference model={model} unit={curve.unit} a={a} b={b} />}
          <button
            type="button"
            className="button quiet small"
            onClick={() => {
              controller.setMarker('a', undefined);
              controller.setMarker('b', undefined);
            }}
          >
            {words.curve.clearMarkers}
          </button>
        </span>
      )}
    </div>
  );
}

function Marker({ name, time, force, unit }: { name: string; time: string; force: string; unit: string }) {
  return (
    <span>
      <b>{name}</b> <span className="number">{time}</span> s <span className="number">{force}</span> {unitText(unit)}
    </span>
  );
}

function Difference({ model, unit, a, b }: { model: CurveModel; unit: string; a: number; b: number }) {
  const parts = markerDifference(model, a, b);
  if (!parts) return null;
  const milliseconds = `${signedText(1000 * parts.seconds, parts.seconds < 0.1 ? 1 : 0)} ms`;
  return (
    <span>
      <b>{words.curve.difference}</b> <span className="number">{milliseconds}</span>{' '}
      <span className="number">{signedText(parts.force, 1)}</span> {unitText(unit)}
      {parts.slope !== undefined && (
        <>
          , {words.curve.slope} <span className="number">{signedText(parts.slope, 0)}</span> {unitText(unit)}/s
        </>
      )}
    </span>
  );
}

/** Force of a line at a sample of the trial's own recording, if there is one. */
export function valueAt(model: CurveModel, series: Series, sample: number): number | undefined {
  const at = Math.round((instantOf(model, sample) - series.start) * series.rate);
  return series.breaks.some((gap) => at >= gap.start && at < gap.end) ? undefined : series.pyramid.values[at];
}

/** B minus A on the total force; the slope is absent when both stand on one sample. */
export function markerDifference(
  model: CurveModel,
  a: number,
  b: number,
): { seconds: number; force: number; slope?: number } | undefined {
  const total = model.series[0];
  const [from, to] = total ? [valueAt(model, total, a), valueAt(model, total, b)] : [undefined, undefined];
  if (from === undefined || to === undefined) return undefined;
  const seconds = (b - a) / model.rate;
  return { seconds, force: to - from, ...(seconds === 0 ? {} : { slope: (to - from) / seconds }) };
}
