import type { RigFloor } from '@sthene/contract';
import { type PlotBox, paperGrid } from '../../curve/grid.ts';
import { linear, type Scale } from '../../curve/scale.ts';
import type { Mark, Measure, Scene } from '../../curve/scene.ts';
import { highestSince, inEffort, type Trace } from '../../live/index.ts';
import { liveWords } from '../../words/live.ts';
import { bandMark, bestMark } from './level-marks.ts';
import { type ForceView, reaching } from './numbers.ts';
import { penLine } from './pen-line.ts';

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
  // Fixed, but for an effort that goes beyond it.
  const highest = floor !== undefined && inEffort(floor.phase) ? highestSince(trace, floor.since) : undefined;
  const y = linear(reaching(axis, (highest ?? 0) - view.less), [box.bottom, box.top]);
  const titles = { x: liveWords.seconds, y: liveWords.axis[view.mode] };
  const grid = paperGrid(box, x, y, titles, measure);
  const inside: Mark[] = [];
  if (floor !== undefined && view.mode !== 'hidden') inside.push(...bandsAndLines(floor, view, box, y));
  if (trace !== undefined) inside.push(...penLine(trace, view, x, y, shownSeconds));
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

function bandsAndLines(floor: RigFloor, view: ForceView, box: PlotBox, y: Scale): Mark[] {
  const { tension, target, best, phase, turn } = floor;
  const before = phase === 'set-up' || phase === 'ready' || phase === 'cue';
  return [
    ...(tension && before ? bandMark(tension, view, box, y, 'band', liveWords.tension) : []),
    ...(target ? bandMark(target, view, box, y, 'band-pen', liveWords.target) : []),
    ...(best !== undefined && turn?.effort.kind !== 'submaximal' ? bestMark(best, view, box, y) : []),
  ];
}
