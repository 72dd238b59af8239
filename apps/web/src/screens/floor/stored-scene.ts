import type { Curve, LiveVerdict } from '@sthene/contract';
import { paperGrid } from '../../curve/grid.ts';
import { linear } from '../../curve/scale.ts';
import type { Mark, Measure, Scene } from '../../curve/scene.ts';
import { liveWords } from '../../words/live.ts';
import type { ForceView } from './numbers.ts';

export interface StoredSceneInput {
  readonly width: number;
  readonly height: number;
  readonly curve: Curve;
  readonly evidence: LiveVerdict['evidence'];
  readonly view: ForceView;
  readonly axis: readonly [number, number];
  readonly measure: Measure;
}

/** The stored effort with the evidence of its verdict: where it began, peaked and ended. */
export function storedScene({ width, height, curve, evidence, view, axis, measure }: StoredSceneInput): Scene {
  const total = curve.values[curve.series.findIndex(({ of }) => of === 'total')];
  const { sampleRate, samples } = curve;
  const box = { left: 62, top: 30, right: width - 12, bottom: height - 26 };
  const first = Math.max(0, (evidence.onset ?? 0) - 1.5 * sampleRate);
  const last = Math.min(samples - 1, (evidence.end ?? samples) + 0.8 * sampleRate);
  const x = linear([first / sampleRate, last / sampleRate], [box.left, box.right]);
  const y = linear(axis, [box.bottom, box.top]);
  const marks: Mark[] = paperGrid(box, x, y, { x: liveWords.seconds, y: liveWords.axis[view.mode] }, measure);
  if (total === undefined) return { width, height, marks };
  const points: number[] = [];
  const step = Math.max(1, Math.floor((last - first) / (2 * width)));
  for (let i = Math.floor(first); i <= last; i += step) {
    const force = total[i];
    if (force !== undefined && !Number.isNaN(force)) points.push(x.at(i / sampleRate), y.at(force - view.less));
  }
  marks.push({ kind: 'path', points, stroke: { ink: 'ink', width: 2.4 } });
  for (const which of ['onset', 'peak', 'end'] as const) {
    const at = evidence[which];
    if (at === undefined) continue;
    const px = x.at(at / sampleRate);
    const py = y.at((total[Math.round(at)] ?? 0) - view.less);
    marks.push({ kind: 'lines', at: [px, box.top, px, box.bottom], stroke: { ink: 'pen', width: 1.5, dash: [4, 4] } });
    marks.push({ kind: 'dot', x: px, y: py, radius: 5, fill: 'panel', stroke: { ink: 'pen', width: 2 } });
    marks.push({
      kind: 'text',
      x: px + 6,
      y: box.bottom - 10,
      text: liveWords[which],
      anchor: 'start',
      ink: 'pen',
      size: 14,
      weight: 650,
      face: 'sans',
      halo: true,
    });
  }
  return { width, height, marks };
}
