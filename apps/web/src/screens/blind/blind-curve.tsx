import type { Curve } from '@sthene/contract';
import { type KeyboardEvent, type MouseEvent, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { CurveController } from '../../curve/controller.ts';
import { plainModel } from '../../curve/plain-model.ts';
import { blindWords } from '../../words/blind.ts';

interface CurveProps {
  readonly curve: Curve;
  readonly onset: number | undefined;
  readonly onPlace: (sample: number) => void;
}

/** A curve with nothing on it but what the reader places: a click or the arrow keys. */
export function BlindCurve({ curve, onset, onPlace }: CurveProps) {
  const t = blindWords.task;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [controller] = useState(() => new CurveController());
  const model = useMemo(() => plainModel(forcesOf(curve)), [curve]);
  useEffect(() => {
    if (!canvas.current) return;
    return controller.attach({ main: canvas.current, balance: null, overview: null });
  }, [controller]);
  useLayoutEffect(() => {
    controller.setModel(model, { from: 0, to: (model.samples - 1) / model.rate });
  }, [controller, model]);
  useLayoutEffect(() => controller.setDraft(onset), [controller, onset]);

  const zoom = (factor: number) => controller.zoom(factor, onset === undefined ? undefined : onset / curve.sampleRate);
  const place = (event: MouseEvent<HTMLCanvasElement>) => {
    const sample = controller.sampleAtPixel(event.clientX - event.currentTarget.getBoundingClientRect().left);
    if (sample !== undefined) onPlace(sample);
  };
  const press = (event: KeyboardEvent) => {
    const step = event.shiftKey ? 10 : 1;
    const from = onset ?? Math.round(curve.samples / 2);
    if (event.key === 'ArrowLeft') onPlace(Math.max(0, from - step));
    else if (event.key === 'ArrowRight') onPlace(Math.min(curve.samples - 1, from + step));
    else if (event.key === '+') zoom(0.5);
    else if (event.key === '-') zoom(2);
    else if (event.key === '0') controller.setView(controller.whole);
    else return;
    event.preventDefault();
  };
  return (
    <div className="blind-curve-box">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the keys of the curve need the focus */}
      <div className="blind-curve" role="application" aria-label={t.summary} tabIndex={0} onKeyDown={press}>
        <canvas ref={canvas} onClick={place} />
      </div>
      <div className="acts">
        <button type="button" className="button quiet" onClick={() => zoom(0.5)}>
          {t.wider}
        </button>
        <button type="button" className="button quiet" onClick={() => zoom(2)}>
          {t.narrower}
        </button>
        <button type="button" className="button quiet" onClick={() => controller.setView(controller.whole)}>
          {t.whole}
        </button>
        <button
          type="button"
          className="button quiet"
          onClick={() => onPlace(Math.max(0, (onset ?? curve.samples / 2) - 1))}
        >
          &minus;1
        </button>
        <button
          type="button"
          className="button quiet"
          onClick={() => onPlace(Math.min(curve.samples - 1, (onset ?? curve.samples / 2) + 1))}
        >
          +1
        </button>
      </div>
      <p className="small soft">{t.keys}</p>
    </div>
  );
}

function forcesOf({ sampleRate, samples, unit, series, values, gaps }: Curve) {
  const of = (kind: 'total' | 'left' | 'right') => values[series.findIndex((one) => one.of === kind)];
  const stretches = (pairs: readonly (readonly [number, number])[]) => pairs.map(([start, end]) => ({ start, end }));
  return {
    ...{ sampleRate, samples, unit },
    total: of('total') ?? new Float64Array(samples),
    left: of('left'),
    right: of('right'),
    gaps: { filled: stretches(gaps.filled), open: stretches(gaps.open) },
  };
}
