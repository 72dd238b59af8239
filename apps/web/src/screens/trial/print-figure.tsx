import { useEffect, useRef } from 'react';
import type { CurveModel } from '../../curve/model.ts';
import { paintSvg } from '../../curve/paint-svg.ts';
import { exportPalette } from '../../curve/palette.ts';
import { words } from '../../words/index.ts';
import type { OtherTrial } from './curve-model.ts';
import { captionOf, figureOf } from './exports.ts';
import { useShared } from './trial-context.ts';

/** Width of the printed figure in its own pixels; the page scales it to its width. */
const printed = { width: 760, height: 400 };

/**
 * The curve for paper. A canvas would be printed at screen size and in screen colours, so the same scene is written as
 * lines when printing begins: sharp at any size, dark on white.
 */
export function PrintFigure({ model, overlays }: { model: CurveModel; overlays: readonly OtherTrial[] }) {
  const { view, lab, controller } = useShared();
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const draw = () => {
      if (!host.current) return;
      const subject = { view, lab, model, controller, named: true, overlays };
      const svg = paintSvg(figureOf(subject, printed), exportPalette, {
        title: words.curve.label,
        description: captionOf(subject).join(' '),
      });
      // Written by our own painter, which escapes every text.
      host.current.innerHTML = svg.slice(svg.indexOf('<svg'));
    };
    addEventListener('beforeprint', draw);
    return () => removeEventListener('beforeprint', draw);
  }, [view, lab, controller, model, overlays]);
  return <div ref={host} className="print-figure" />;
}
