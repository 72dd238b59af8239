import { type MainScene, mainScene, type Overlay } from './main-scene.ts';
import { type CurveModel, instantOf, nearestSample, wholeOf } from './model.ts';
import { measureWith, paintCanvas } from './paint-canvas.ts';
import { themePalette } from './palette.ts';
import type { Measure, Palette, Scene } from './scene.ts';
import { balanceScene, overviewFrame, overviewGround } from './strip-scenes.ts';
import { clamped, following, panned, shortest, type View, zoomed } from './view.ts';

/** What a drag does: move the paper, or place markers by tapping. */
export type Tool = 'pan' | 'markers';

/** What the surroundings of the curve need to know; a new object whenever something changed. */
export interface CurveState {
  readonly view: View;
  readonly tool: Tool;
  readonly forceFit: 'whole' | 'window';
  readonly overlay: Overlay;
  /** Whether the cursor was put there by keys; then it is announced. */
  readonly byKeys: boolean;
}

export interface Canvases {
  readonly main: HTMLCanvasElement;
  readonly balance: HTMLCanvasElement | null;
  readonly overview: HTMLCanvasElement | null;
}

/**
 * Holds what is visible of a curve and paints it. Knows no framework: it is given canvases and a model, and tells
 * listeners when its state changed. Painting happens at most once a frame and reads only precomputed extremes.
 */
export class CurveController {
  private model: CurveModel | undefined;
  private canvases: Canvases | undefined;
  private current: CurveState = {
    view: { from: 0, to: 1 },
    tool: 'pan',
    forceFit: 'whole',
    overlay: {},
    byKeys: false,
  };
  private readonly listeners = new Set<() => void>();
  private palette: Palette | undefined;
  private weight = 1;
  private measure: Measure | undefined;
  private frame = 0;
  private ground: { model: CurveModel; palette: Palette; canvas: HTMLCanvasElement } | undefined;
  private readonly resized: ResizeObserver;
  /** The last painted main scene, for hit tests. */
  last: MainScene | undefined;
  /** Called when a person moves the onset line on the curve. */
  onDraft: ((sample: number) => void) | undefined;

  constructor() {
    this.resized = new ResizeObserver(() => this.repaint());
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly state = (): CurveState => this.current;

  attach(canvases: Canvases): () => void {
    this.canvases = canvases;
    for (const canvas of [canvases.main, canvases.balance, canvases.overview]) if (canvas) this.resized.observe(canvas);
    const themed = () => {
      this.palette = undefined;
      this.repaint();
    };
    addEventListener('themechange', themed);
    document.fonts?.ready.then(() => {
      this.measure = undefined;
      this.repaint();
    }, undefined);
    this.repaint();
    return () => {
      removeEventListener('themechange', themed);
      this.resized.disconnect();
      cancelAnimationFrame(this.frame);
      this.frame = 0;
      this.canvases = undefined;
    };
  }

  /** A new model keeps the view unless the time axis moved (then the view moves with it) or `view` is given. */
  setModel(model: CurveModel, view?: View): void {
    const before = this.model;
    this.model = model;
    if (view) this.setView(view);
    else if (before && before.start !== model.start) {
      const shift = model.start - before.start;
      this.setView({ from: this.current.view.from + shift, to: this.current.view.to + shift });
    }
    this.repaint();
  }

  get whole(): View {
    return this.model ? wholeOf(this.model) : { from: 0, to: 1 };
  }

  setView(view: View): void {
    if (!this.model) return;
    this.change({ view: clamped(view, this.whole, shortest(this.model.rate)) });
  }

  zoom(factor: number, about?: number): void {
    const { view } = this.current;
    const cursor =
      this.model && this.current.overlay.cursor !== undefined
        ? instantOf(this.model, this.current.overlay.cursor)
        : undefined;
    const inView = cursor !== undefined && cursor >= view.from && cursor <= view.to ? cursor : undefined;
    this.setView(zoomed(view, factor, about ?? inView ?? (view.from + view.to) / 2));
  }

  pan(share: number): void {
    this.setView(panned(this.current.view, share));
  }

  setTool(tool: Tool): void {
    this.change({ tool });
  }

  setForceFit(forceFit: 'whole' | 'window'): void {
    this.change({ forceFit });
  }

  /** Puts the reading cursor; by keys the view follows it. */
  setCursor(sample: number | undefined, byKeys = false): void {
    const { cursor: _, ...rest } = this.current.overlay;
    const overlay: Overlay = sample === undefined ? rest : { ...rest, cursor: this.within(sample) };
    this.change({ overlay, byKeys });
    if (byKeys && this.model && overlay.cursor !== undefined)
      this.setView(following(this.current.view, instantOf(this.model, overlay.cursor)));
  }

  /** Puts a lasting marker, or takes it away. */
  setMarker(name: 'a' | 'b', sample: number | undefined): void {
    const { [name]: _, ...rest } = this.current.overlay;
    this.change({ overlay: sample === undefined ? rest : { ...rest, [name]: this.within(sample) } });
  }

  /** The next free marker, or the one set longer ago. */
  placeMarker(sample: number): void {
    const { a, b } = this.current.overlay;
    this.setMarker(
      a === undefined || (b !== undefined && Math.abs(sample - a) < Math.abs(sample - b)) ? 'a' : 'b',
      sample,
    );
  }

  setDraft(sample: number | undefined): void {
    const { draft: _, ...rest } = this.current.overlay;
    this.change({ overlay: sample === undefined ? rest : { ...rest, draft: this.within(sample) } });
  }

  /** Sample nearest to a horizontal position on the main canvas. */
  sampleAtPixel(pixel: number): number | undefined {
    return this.model && this.last ? nearestSample(this.model, this.last.x.from(pixel)) : undefined;
  }

  pixelOf(sample: number): number | undefined {
    return this.model && this.last ? this.last.x.at(instantOf(this.model, sample)) : undefined;
  }

  private within(sample: number): number {
    return Math.min((this.model?.samples ?? 1) - 1, Math.max(0, Math.round(sample)));
  }

  private change(part: Partial<CurveState>): void {
    this.current = { ...this.current, ...part };
    this.repaint();
    for (const listener of this.listeners) listener();
  }

  repaint(): void {
    if (this.frame || !this.canvases) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.paintNow();
    });
  }

  /** Paints at once; returns the milliseconds it took. */
  paintNow(): number {
    const { model, canvases } = this;
    if (!model || !canvases) return 0;
    const began = performance.now();
    const host = canvases.main.parentElement ?? document.body;
    if (!this.palette) {
      this.palette = themePalette(host);
      this.weight = Number(getComputedStyle(host).getPropertyValue('--stroke')) || 1;
    }
    const { palette } = this;
    onto(canvases.main, palette, (width, height, pen) => {
      this.measure ??= measureWith(pen);
      const { view, forceFit, overlay } = this.current;
      this.last = mainScene({
        model,
        view,
        width,
        height,
        forceFit,
        overlay,
        measure: this.measure,
        weight: this.weight,
      });
      return this.last.scene;
    });
    if (canvases.balance)
      onto(canvases.balance, palette, (width, height) => balanceScene(model, this.current.view, width, height));
    if (canvases.overview) this.paintOverview(canvases.overview, model, palette);
    return performance.now() - began;
  }

  /** The unchanging part of the overview is kept as a picture; a frame then costs one copy. */
  private paintOverview(canvas: HTMLCanvasElement, model: CurveModel, palette: Palette): void {
    onto(
      canvas,
      palette,
      (width, height, pen) => {
        const kept = this.ground;
        if (
          !kept ||
          kept.model !== model ||
          kept.palette !== palette ||
          kept.canvas.width !== canvas.width ||
          kept.canvas.height !== canvas.height
        ) {
          const ground = document.createElement('canvas');
          ground.width = canvas.width;
          ground.height = canvas.height;
          const own = ground.getContext('2d');
          if (own) {
            own.scale(canvas.width / width, canvas.height / height);
            paintCanvas(own, overviewGround(model, width, height), palette);
          }
          this.ground = { model, palette, canvas: ground };
        }
        pen.clearRect(0, 0, width, height);
        if (this.ground) pen.drawImage(this.ground.canvas, 0, 0, width, height);
        return overviewFrame(model, this.current.view, width, height);
      },
      false,
    );
  }
}

/** Sizes a canvas to its box at the screen's pixel ratio and paints a scene on it. */
function onto(
  canvas: HTMLCanvasElement,
  palette: Palette,
  build: (width: number, height: number, pen: CanvasRenderingContext2D) => Scene,
  clear = true,
): void {
  const { clientWidth: width, clientHeight: height } = canvas;
  if (width === 0 || height === 0) return;
  const ratio = devicePixelRatio || 1;
  const [w, h] = [Math.round(width * ratio), Math.round(height * ratio)];
  if (canvas.width !== w || canvas.height !== h) {
    canvas.width = w;
    canvas.height = h;
  }
  const pen = canvas.getContext('2d');
  if (!pen) return;
  pen.setTransform(ratio, 0, 0, ratio, 0, 0);
  paintCanvas(pen, build(width, height, pen), palette, clear);
}
