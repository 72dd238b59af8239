import type { RigFloor } from '@sthene/contract';
import { type PlotBox, paperGrid } from '../../curve/grid.ts';
import { linear, type Scale } from '../../curve/scale.ts';
import type { Mark, Measure, Scene } from '../../curve/scene.ts';
import { endOf, type Trace } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';
import { liveWords } from '../../words/live.ts';
import type { ForceView } from './numbers.ts';

/** Seconds across the paper. */
const shownSeconds = 8;

export interface LiveSceneInput {
  readonly width: number;
  readonly height: number;
  readonly trace: Trace | undefined;
  readonly floor: RigFloor | undefined;
  readonly view: ForceView;
  readonly axis: readonly [number, number];
  readonly measure: Measure;
}

/** The paper runs under a pen that stands still near its right end, as on a strip chart. */
export function liveScene({ width, height, trace, floor, view, axis, measure }: LiveSceneInput): Scene {
  const box: PlotBox = { left: 62, top: 30, right: width - 12, bottom: height - 26 };
  const x = linear([-shownSeconds + 0.8, 0.8], [box.left, box.right]);
  const y = linear(axis, [box.bottom, box.top]);
  const titles = { x: liveWords.seconds, y: liveWords.axis[view.mode] };
  const grid = paperGrid(box, x, y, titles, measure);
  const inside: Mark[] = [];
  if (floor !== undefined && view.mode !== 'hidden') inside.push(...bandsAndLines(floor, view, box, x, y));
  if (trace !== undefined) inside.push(...penLine(trace, view, x, y));
  return {
    width,
    height,
    marks: [
      ...grid.filter((mark) => view.mode !== 'hidden' || !isForceNumber(mark, box)),
      {
        kind: 'clip',
        x: box.left,
        y: box.top - 12,
        width: box.right - box.left,
        height: box.bottom - box.top + 12,
        marks: inside,
      },
    ],
  };
}

/** Numbers at the force axis, which would be the weight while someone is weighed. */
const isForceNumber = (mark: Mark, box: PlotBox): boolean =>
  mark.kind === 'text' && mark.face === 'mono' && mark.x < box.left;

function bandsAndLines(floor: RigFloor, { less }: ForceView, box: PlotBox, x: Scale, y: Scale): Mark[] {
  const marks: Mark[] = [];
  const band = (low: number, high: number, fill: 'band' | 'band-pen', words: string): void => {
    const [top, bottom] = [y.at(high - less), y.at(low - less)];
    marks.push({
      kind: 'rect',
      x: box.left,
      y: top,
      width: box.right - box.left,
      height: Math.max(2, bottom - top),
      fill,
    });
    marks.push(label(box.left + 8, bottom + 15, words, 'ink-soft'));
  };
  const { tension, target, best, phase, turn } = floor;
  if (tension && (phase === 'set-up' || phase === 'ready' || phase === 'cue'))
    band(tension.low, tension.high, 'band', liveWords.tension);
  if (target) band(target.low, target.high, 'band-pen', liveWords.target);
  if (best !== undefined && turn?.effort.kind !== 'submaximal') {
    const at = y.at(best - less);
    marks.push({
      kind: 'lines',
      at: [x.range[0], at, x.range[1], at],
      stroke: { ink: 'pen', width: 2, dash: [10, 6] },
    });
    marks.push(label(box.left + 8, at - 7, liveWords.best(numberText(best - less, 0)), 'pen'));
  }
  return marks;
}

const label = (x: number, y: number, text: string, ink: 'pen' | 'ink-soft' | 'ink'): Mark => ({
  kind: 'text',
  x,
  y,
  text,
  anchor: 'start',
  ink,
  size: 14,
  weight: 600,
  face: 'sans',
  halo: true,
});

/** The total as a line through the extremes of each bucket, and the pen's point. */
function penLine(trace: Trace, { less }: ForceView, x: Scale, y: Scale): Mark[] {
  const marks: Mark[] = [];
  const end = endOf(trace);
  const from = Math.max(0, trace.low.length - Math.ceil((shownSeconds * trace.rate) / trace.bucket));
  let points: number[] = [];
  const finish = () => {
    if (points.length >= 4) marks.push({ kind: 'path', points, stroke: { ink: 'ink', width: 2.4 } });
    points = [];
  };
  for (let i = from; i < trace.low.length; i++) {
    const low = trace.low[i];
    const high = trace.high[i];
    if (typeof low !== 'number' || typeof high !== 'number') {
      finish();
      continue;
    }
    const px = x.at((trace.first + (i + 0.5) * trace.bucket - end) / trace.rate);
    points.push(px, y.at(low - less), px, y.at(high - less));
  }
  finish();
  const [low, high] = [trace.low.at(-1), trace.high.at(-1)];
  if (typeof low === 'number' && typeof high === 'number')
    marks.push({
      kind: 'dot',
      x: x.at(0),
      y: y.at((low + high) / 2 - less),
      radius: 6,
      fill: 'pen',
      stroke: { ink: 'pen', width: 1 },
    });
  return marks;
}
