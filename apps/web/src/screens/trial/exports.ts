import type { LabId, TrialView } from '@sthene/contract';
import type { CurveController } from '../../curve/controller.ts';
import { curveCsv } from '../../curve/csv.ts';
import { figureScene } from '../../curve/figure.ts';
import type { CurveModel } from '../../curve/model.ts';
import { measureWith, type Pen } from '../../curve/paint-canvas.ts';
import { paintSvg } from '../../curve/paint-svg.ts';
import { exportPalette } from '../../curve/palette.ts';
import { scenePng } from '../../curve/png.ts';
import { roughMeasure, type Scene } from '../../curve/scene.ts';
import { numberText, signedText, unitText } from '../../number/format.ts';
import { dayText, whenText } from '../../number/when.ts';
import { words } from '../../words/index.ts';
import type { OtherTrial } from './curve-model.ts';
import { markerDifference } from './legend.tsx';
import { testTitle } from './test-title.ts';
import { valuesCsv } from './values-csv.ts';

export interface ExportSubject {
  readonly view: TrialView;
  readonly lab: LabId;
  readonly model: CurveModel;
  readonly controller: CurveController;
  /** Whether the person's name may stand on the figure; else the code. */
  readonly named: boolean;
  readonly overlays: readonly OtherTrial[];
}

/** A file to hand to the browser. */
export interface OutFile {
  readonly name: string;
  readonly content: Blob;
}

/** The figure as it is on screen (window, markers, opened evidence), with legend and caption; in the screen's size unless told otherwise. */
export function figureOf(subject: ExportSubject, size?: { width: number; height: number }): Scene {
  const { controller, model } = subject;
  const { view, forceFit, overlay } = controller.state();
  const seen = controller.last?.scene;
  const pen = document.createElement('canvas').getContext('2d') as Pen | null;
  return figureScene({
    model,
    view,
    width: size?.width ?? seen?.width ?? 900,
    height: size?.height ?? seen?.height ?? 480,
    forceFit,
    overlay,
    measure: pen ? measureWith(pen) : roughMeasure,
    balanceHeight: 64,
    caption: captionOf(subject),
  });
}

/** Who, which test, when, by which method, from which recording. */
export function captionOf({ view, lab, model, controller, named, overlays }: ExportSubject): string[] {
  const t = words.exportMenu;
  const who = named || view.person.code === '' ? view.person.name : view.person.code;
  const lines = [
    t.caption({
      who,
      test: testTitle(view.result.test),
      when: whenText(view.session.startedAt, false),
      order: `${words.effort[view.effort]} ${view.order}`,
      method: `${view.result.method.name} ${view.result.method.version}`,
      hash: view.result.method.sha256.slice(0, 8),
      recording: view.recording.sha256.slice(0, 12),
    }),
  ];
  if (overlays.length > 0)
    lines.push(t.overlays(overlays.map((other) => words.trial.trialN(other.view.order)).join(', ')));
  const { a, b } = controller.state().overlay;
  const parts = a !== undefined && b !== undefined ? markerDifference(model, a, b) : undefined;
  if (parts) {
    const unit = unitText(model.unit);
    lines.push(
      t.markers(
        `${signedText(1000 * parts.seconds, 1)} ms`,
        `${signedText(parts.force, 1)} ${unit}`,
        parts.slope === undefined ? '' : `${numberText(parts.slope, 0)} ${unit}/s`,
      ),
    );
  }
  if (lab === 'example') lines.push(t.example);
  return lines;
}

/** A name without a person: test, day, trial, recording. */
export function fileName({ view }: Pick<ExportSubject, 'view'>, what: string, ending: string): string {
  return `${view.result.test}-${dayText(view.session.startedAt)}-trial-${view.order}-${view.recording.sha256.slice(0, 8)}-${what}.${ending}`;
}

export function svgFile(subject: ExportSubject): OutFile {
  const caption = captionOf(subject).join(' ');
  const svg = paintSvg(figureOf(subject), exportPalette, { title: words.curve.label, description: caption });
  return { name: fileName(subject, 'figure', 'svg'), content: new Blob([svg], { type: 'image/svg+xml' }) };
}

export async function pngFile(subject: ExportSubject, millimetres: number): Promise<OutFile> {
  return {
    name: fileName(subject, `figure-${millimetres}mm`, 'png'),
    content: await scenePng(figureOf(subject), exportPalette, millimetres),
  };
}

export function curveFile(subject: ExportSubject): OutFile {
  const text = curveCsv(subject.model, subject.controller.state().view);
  return { name: fileName(subject, 'forces', 'csv'), content: new Blob([text], { type: 'text/csv' }) };
}

export function valuesFile(subject: ExportSubject): OutFile {
  return {
    name: fileName(subject, 'values', 'csv'),
    content: new Blob([valuesCsv(subject.view)], { type: 'text/csv' }),
  };
}
