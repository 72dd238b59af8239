import type { CurveController } from './controller.ts';
import { plotMargins } from './main-scene.ts';
import { linear } from './scale.ts';
import type { View } from './view.ts';

type Drag =
  | { kind: 'pan'; x: number; view: View; moved: boolean }
  | { kind: 'marker'; name: 'a' | 'b' }
  | { kind: 'draft' };

/**
 * Mouse, pen and touch on the main canvas: drag pans, wheel and pinch zoom, Alt+click places marker A, Alt+Shift+click
 * marker B; with the marker tool a tap places them. Markers and a movable onset can be dragged. Vertical swipes stay with
 * the page. Every act here has a key and a button elsewhere.
 */
export function listenOnPlot(canvas: HTMLCanvasElement, curve: CurveController, fitEffort: () => void): () => void {
  const stop = new AbortController();
  const on = { signal: stop.signal };
  const touches = new Map<number, number>();
  let drag: Drag | undefined;
  let pinch: { distance: number; view: View; middle: number } | undefined;

  const xOf = (event: { clientX: number }) => event.clientX - canvas.getBoundingClientRect().left;
  const near = (sample: number | undefined, x: number, reach: number) => {
    const at = sample === undefined ? undefined : curve.pixelOf(sample);
    return at !== undefined && Math.abs(at - x) <= reach;
  };
  const grabbed = (x: number, reach: number): Drag | undefined => {
    const { draft, a, b } = curve.state().overlay;
    if (near(draft, x, reach)) return { kind: 'draft' };
    if (near(a, x, reach)) return { kind: 'marker', name: 'a' };
    if (near(b, x, reach)) return { kind: 'marker', name: 'b' };
    return undefined;
  };

  canvas.addEventListener(
    'pointerdown',
    (event) => {
      if (event.button !== 0) return;
      canvas.setPointerCapture(event.pointerId);
      const x = xOf(event);
      touches.set(event.pointerId, x);
      if (touches.size === 2) {
        const [one, two] = [...touches.values()] as [number, number];
        pinch = { distance: Math.max(20, Math.abs(one - two)), view: curve.state().view, middle: (one + two) / 2 };
        drag = undefined;
        return;
      }
      const sample = curve.sampleAtPixel(x);
      if (event.altKey && sample !== undefined) {
        const name = event.shiftKey ? 'b' : 'a';
        curve.setMarker(name, sample);
        drag = { kind: 'marker', name };
        return;
      }
      drag = grabbed(x, event.pointerType === 'touch' ? 24 : 8) ?? {
        kind: 'pan',
        x,
        view: curve.state().view,
        moved: false,
      };
    },
    on,
  );

  canvas.addEventListener(
    'pointermove',
    (event) => {
      const x = xOf(event);
      if (touches.has(event.pointerId)) touches.set(event.pointerId, x);
      if (pinch && touches.size === 2) {
        const [one, two] = [...touches.values()] as [number, number];
        const factor = pinch.distance / Math.max(20, Math.abs(one - two));
        const scale = axis(canvas, pinch.view);
        const about = scale.from(pinch.middle);
        const length = (pinch.view.to - pinch.view.from) * factor;
        const share = (about - pinch.view.from) / (pinch.view.to - pinch.view.from);
        const shift = (scale.from((one + two) / 2) - about) * factor;
        curve.setView({ from: about - share * length - shift, to: about + (1 - share) * length - shift });
        return;
      }
      const sample = curve.sampleAtPixel(x);
      if (!drag) {
        if (event.pointerType === 'mouse') {
          curve.setCursor(sample);
          canvas.style.cursor = grabbed(x, 8) ? 'ew-resize' : curve.state().tool === 'markers' ? 'crosshair' : 'grab';
        }
        return;
      }
      if (drag.kind === 'pan') {
        if (Math.abs(x - drag.x) > 4) drag.moved = true;
        if (!drag.moved) return;
        const scale = axis(canvas, drag.view);
        const by = scale.from(drag.x) - scale.from(x);
        curve.setView({ from: drag.view.from + by, to: drag.view.to + by });
      } else if (sample !== undefined && drag.kind === 'marker') curve.setMarker(drag.name, sample);
      else if (sample !== undefined) curve.onDraft?.(sample);
    },
    on,
  );

  const end = (event: PointerEvent) => {
    touches.delete(event.pointerId);
    if (touches.size < 2) pinch = undefined;
    const was = drag;
    drag = undefined;
    if (event.type !== 'pointerup' || was?.kind !== 'pan' || was.moved) return;
    const sample = curve.sampleAtPixel(xOf(event));
    if (sample === undefined) return;
    if (curve.state().overlay.draft !== undefined) curve.onDraft?.(sample);
    else if (curve.state().tool === 'markers') curve.placeMarker(sample);
    else curve.setCursor(sample);
  };
  canvas.addEventListener('pointerup', end, on);
  canvas.addEventListener('pointercancel', end, on);
  canvas.addEventListener(
    'pointerleave',
    (event) => {
      if (event.pointerType === 'mouse' && !drag && document.activeElement !== canvas) curve.setCursor(undefined);
    },
    on,
  );
  canvas.addEventListener(
    'dblclick',
    (event) => {
      if (!event.altKey && curve.state().tool === 'pan') fitEffort();
    },
    on,
  );
  canvas.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const unit = event.deltaMode === 1 ? 30 : 1;
      const sideways = event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY);
      if (sideways) curve.pan(((event.deltaX || event.deltaY) * unit) / 1000);
      else
        curve.zoom(
          Math.exp((event.deltaY * unit) / (event.ctrlKey ? 120 : 420)),
          axis(canvas, curve.state().view).from(xOf(event)),
        );
    },
    { ...on, passive: false },
  );
  return () => stop.abort();
}

/** Dragging the frame of the overview strip, its edges, or clicking beside it. */
export function listenOnOverview(canvas: HTMLCanvasElement, curve: CurveController): () => void {
  const stop = new AbortController();
  const on = { signal: stop.signal };
  let drag: { part: 'from' | 'to' | 'both'; x: number; view: View } | undefined;
  const xOf = (event: PointerEvent) => event.clientX - canvas.getBoundingClientRect().left;
  canvas.addEventListener(
    'pointerdown',
    (event) => {
      canvas.setPointerCapture(event.pointerId);
      const x = xOf(event);
      const scale = axis(canvas, curve.whole);
      const { view } = curve.state();
      const reach = event.pointerType === 'touch' ? 20 : 8;
      const [left, right] = [scale.at(view.from), scale.at(view.to)];
      if (Math.abs(x - left) <= reach && x < (left + right) / 2) drag = { part: 'from', x, view };
      else if (Math.abs(x - right) <= reach) drag = { part: 'to', x, view };
      else if (x > left && x < right) drag = { part: 'both', x, view };
      else {
        const half = (view.to - view.from) / 2;
        curve.setView({ from: scale.from(x) - half, to: scale.from(x) + half });
        drag = { part: 'both', x, view: curve.state().view };
      }
    },
    on,
  );
  canvas.addEventListener(
    'pointermove',
    (event) => {
      if (!drag) return;
      const scale = axis(canvas, curve.whole);
      const by = scale.from(xOf(event)) - scale.from(drag.x);
      const { from, to } = drag.view;
      if (drag.part === 'both') curve.setView({ from: from + by, to: to + by });
      else if (drag.part === 'from') curve.setView({ from: Math.min(from + by, to - 0.02), to });
      else curve.setView({ from, to: Math.max(to + by, from + 0.02) });
    },
    on,
  );
  for (const type of ['pointerup', 'pointercancel'] as const)
    canvas.addEventListener(
      type,
      () => {
        drag = undefined;
      },
      on,
    );
  return () => stop.abort();
}

const axis = (canvas: HTMLCanvasElement, view: View) =>
  linear(
    [view.from, view.to],
    [plotMargins.left, Math.max(plotMargins.left + 10, canvas.clientWidth - plotMargins.right)],
  );
