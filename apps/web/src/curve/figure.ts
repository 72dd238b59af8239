import { type MainSceneInput, mainScene, plotMargins } from './main-scene.ts';
import { type CurveModel, instantOf } from './model.ts';
import type { Mark, Measure, Scene } from './scene.ts';
import { balanceScene } from './strip-scenes.ts';

export interface FigureInput extends MainSceneInput {
  /** Height of the balance strip; 0 leaves it out. */
  readonly balanceHeight: number;
  /** Caption lines under the picture. */
  readonly caption: readonly string[];
}

/** The picture of an export: what is on screen, then a legend and a caption. */
export function figureScene(input: FigureInput): Scene {
  const main = mainScene({ ...input, overlay: withoutCursor(input) }).scene;
  const strip = input.balanceHeight > 0 && input.model.balance ? input.balanceHeight : 0;
  const legend = legendMarks(input.model, input.measure, input.width, main.height + strip + 20);
  const lines = input.caption.flatMap((line) => wrapped(line, input.width - 16, input.measure));
  const top = main.height + strip + 34;
  const caption = lines.map(
    (text, i): Mark => ({
      kind: 'text',
      x: 8,
      y: top + 14 + i * 16,
      text,
      anchor: 'start',
      ink: 'ink-soft',
      size: 12,
      weight: 400,
      face: 'sans',
    }),
  );
  const height = top + 14 + lines.length * 16;
  const marks: Mark[] = [
    { kind: 'rect', x: 0, y: 0, width: input.width, height, fill: 'paper' },
    ...main.marks,
    ...(strip > 0
      ? [
          {
            kind: 'shift' as const,
            x: 0,
            y: main.height,
            marks: balanceScene(input.model, input.view, input.width, strip).marks,
          },
        ]
      : []),
    ...legend,
    ...caption,
  ];
  return { width: input.width, height, marks };
}

function withoutCursor(input: MainSceneInput): MainSceneInput['overlay'] {
  const { a, b } = input.overlay;
  return { ...(a === undefined ? {} : { a }), ...(b === undefined ? {} : { b }) };
}

function legendMarks(model: CurveModel, measure: Measure, width: number, y: number): Mark[] {
  const marks: Mark[] = [];
  let x: number = plotMargins.left;
  for (const series of model.series) {
    const wide = measure(series.name, 12, 400, 'sans');
    if (x + 34 + wide > width) break;
    marks.push({
      kind: 'lines',
      at: [x, y - 4, x + 26, y - 4],
      stroke: { ink: series.ink, width: series.width, ...(series.dash ? { dash: series.dash } : {}) },
    });
    marks.push({
      kind: 'text',
      x: x + 32,
      y,
      text: series.name,
      anchor: 'start',
      ink: 'ink',
      size: 12,
      weight: 400,
      face: 'sans',
    });
    x += 32 + wide + 22;
  }
  return marks;
}

/** Breaks a line at blanks so that each part fits. */
export function wrapped(line: string, width: number, measure: Measure): string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of line.split(' ')) {
    const next = current === '' ? word : `${current} ${word}`;
    if (current !== '' && measure(next, 12, 400, 'sans') > width) {
      lines.push(current);
      current = word;
    } else current = next;
  }
  return current === '' ? lines : [...lines, current];
}

/** The time window of an export, s on the drawn axis. */
export const windowOf = (model: CurveModel, from: number, to: number) => ({
  from: instantOf(model, from),
  to: instantOf(model, to),
});
