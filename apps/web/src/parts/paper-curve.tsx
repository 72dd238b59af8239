import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { CurveController } from '../curve/controller.ts';
import type { CurveModel } from '../curve/model.ts';
import type { View } from '../curve/view.ts';
import './paper-curve.css';

/** A curve on paper to look at, without tools: for previews. `summary` says in words what it shows. */
export function PaperCurve({ model, view, summary }: { model: CurveModel; view?: View; summary: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [controller] = useState(() => new CurveController());
  useEffect(() => {
    if (!canvas.current) return;
    return controller.attach({ main: canvas.current, balance: null, overview: null });
  }, [controller]);
  useLayoutEffect(() => {
    const last = model.start + (model.samples - 1) / model.rate;
    controller.setModel(model, view ?? { from: model.start, to: last });
  }, [controller, model, view]);
  return (
    <div className="paper-curve">
      <canvas ref={canvas} role="img" aria-label={summary} />
    </div>
  );
}
