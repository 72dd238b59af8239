import type { Curve } from '@sthene/contract';
import { useEffect, useRef, useState } from 'react';
import type { CurveModel } from '../../curve/model.ts';
import { listenOnOverview, listenOnPlot } from '../../curve/pointer.ts';
import { quantityText } from '../../number/format.ts';
import { words } from '../../words/index.ts';
import type { OtherTrial, Shown } from './curve-model.ts';
import { CurveTable } from './curve-table.tsx';
import { CurveTools } from './curve-tools.tsx';
import { effortView } from './fits.ts';
import { Legend } from './legend.tsx';
import { resolutionOf } from './numbers.ts';
import { PrintFigure } from './print-figure.tsx';
import { curveSummary, useReader } from './reader.ts';
import type { Stop } from './stops.ts';
import { useShared } from './trial-context.ts';
import './curve.css';

interface CurvePanelProps {
  readonly curve: Curve;
  readonly model: CurveModel;
  readonly stops: readonly Stop[];
  readonly shown: Shown;
  setShown(shown: Shown): void;
  readonly moving: boolean;
  readonly overlays: readonly OtherTrial[];
  onKeys(): void;
}

/** The curve with its tools, balance strip, overview and words for those who do not see it. */
export function CurvePanel({ curve, model, stops, shown, setShown, moving, overlays, onKeys }: CurvePanelProps) {
  const { view, controller, unit } = useShared();
  const main = useRef<HTMLCanvasElement>(null);
  const balance = useRef<HTMLCanvasElement>(null);
  const overview = useRef<HTMLCanvasElement>(null);
  const fit = useRef(() => {});
  fit.current = () => controller.setView(effortView(model, view.result));
  const hasBalance = model.balance !== undefined;
  const [series, setSeries] = useState(0);
  const reader = useReader(controller, model, stops, series, setSeries, (value) =>
    quantityText(value, unit, resolutionOf(view.result)),
  );

  // The balance canvas comes and goes with the sides.
  useEffect(() => {
    if (!main.current) return;
    const detach = controller.attach({ main: main.current, balance: balance.current, overview: overview.current });
    const quietPlot = listenOnPlot(main.current, controller, () => fit.current());
    const quietOverview = overview.current ? listenOnOverview(overview.current, controller) : undefined;
    return () => {
      detach();
      quietPlot();
      quietOverview?.();
    };
  }, [controller, hasBalance]);

  return (
    <section className="trial-curve" aria-label={words.curve.label}>
      <CurveTools model={model} stops={stops} shown={shown} setShown={setShown} moving={moving} onKeys={onKeys} />
      <figure className="curve">
        <div
          className="plot"
          role="application"
          aria-roledescription={words.curve.role}
          aria-label={words.curve.label}
          aria-describedby="curve-summary curve-hint"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: the curve is read with arrow keys
          tabIndex={0}
          onKeyDown={reader.onKeyDown}
        >
          <canvas ref={main} className="plot-main" />
        </div>
        <figcaption id="curve-summary" className="unseen">
          {curveSummary(view, curve)}
        </figcaption>
        <p id="curve-hint" className="unseen">
          {words.curve.keysHint}
        </p>
        <p className="unseen" aria-live="polite">
          {reader.spoken}
        </p>
        <Legend curve={curve} model={model} />
        {hasBalance && (
          <canvas
            ref={balance}
            className="plot-balance"
            role="img"
            aria-label={`${words.curve.balance}: ${words.curve.balanceHelp}`}
          />
        )}
        <canvas ref={overview} className="plot-overview" role="img" aria-label={words.curve.overview} />
      </figure>
      <PrintFigure model={model} overlays={overlays} />
      <CurveTable curve={curve} model={model} stops={stops} />
    </section>
  );
}
