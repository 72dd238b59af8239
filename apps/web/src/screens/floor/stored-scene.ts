import type { Curve, LiveVerdict } from '@sthene/contract';
import { paperGrid } from '../../curve/grid.ts';
import { linear } from '../../curve/scale.ts';
import type { Mark, Measure, Scene } from '../../curve/scene.ts';
import type { Trace } from '../../live/index.ts';
import { liveWords } from '../../words/live.ts';
import { evidenceMarks } from './evidence-marks.ts';
import { bandMark, bestMark } from './level-marks.ts';
import { type ForceView, reaching } from './numbers.ts';

export interface JudgedSceneInput {
  readonly width: number;
  readonly height: number;
  readonly evidence: LiveVerdict['evidence'];
  /** The band a submaximal effort aimed at, as it is told. */
  readonly band: { readonly low: number; readonly high: number } | undefined;
  /** The athlete's own best before this effort, as it is told. */
  readonly best: number | undefined;
  readonly view: ForceView;
  readonly axis: readonly [number, number];
  readonly measure: Measure;
}

/** A point of a judged effort: seconds of its recording, and force before it is told. */
interface Point {
  readonly time: number;
  readonly force: number;
}

/** The stored effort with the evidence of its verdict: where it began, peaked and ended. */
export function storedScene(input: JudgedSceneInput & { readonly curve: Curve }): Scene {
  const { curve, width } = input;
  const total = curve.values[curve.series.findIndex(({ of }) => of === 'total')];
  const { sampleRate, samples } = curve;
  const { first, last } = windowOf(input.evidence, sampleRate, samples);
  const points: Point[] = [];
  // Smallest and largest of each step, so that a peak never vanishes between two columns.
  const step = Math.max(1, Math.floor((last - first) / width));
  for (let i = Math.floor(first); total !== undefined && i <= last; i += step) {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let j = i; j < Math.min(i + step, samples); j++) {
      const force = total[j];
      if (force === undefined || Number.isNaN(force)) continue;
      low = Math.min(low, force);
      high = Math.max(high, force);
    }
    if (high >= low) points.push({ time: i / sampleRate, force: low }, { time: i / sampleRate, force: high });
  }
  return judgedScene(input, points, sampleRate, samples, (index) => total?.[Math.round(index)]);
}

/** The same from the live curve, where the stored one stays with the station. */
export function keptScene(input: JudgedSceneInput & { readonly trace: Trace }): Scene {
  const { trace, evidence } = input;
  const { rate, bucket, low, high } = trace;
  const timeOf = (i: number) => (trace.first + (i + 0.5) * bucket - evidence.from) / rate;
  const points = low.flatMap((least, i): Point[] => {
    const most = high[i];
    if (typeof least !== 'number' || typeof most !== 'number') return [];
    return [
      { time: timeOf(i), force: least },
      { time: timeOf(i), force: most },
    ];
  });
  const forceAt = (index: number) => high[Math.floor((index + evidence.from - trace.first) / bucket)] ?? undefined;
  return judgedScene(input, points, rate, evidence.span.end, forceAt);
}

function windowOf({ onset, end, touchdown }: LiveVerdict['evidence'], rate: number, samples: number) {
  const last = end ?? touchdown ?? samples;
  return { first: Math.max(0, (onset ?? 0) - 1.5 * rate), last: Math.min(samples - 1, last + 0.8 * rate) };
}

function judgedScene(
  { width, height, evidence, band, best, view, axis, measure }: JudgedSceneInput,
  curve: readonly Point[],
  rate: number,
  samples: number,
  forceAt: (index: number) => number | undefined,
): Scene {
  const box = { left: 62, top: 30, right: width - 12, bottom: height - 26 };
  const { first, last } = windowOf(evidence, rate, samples);
  const x = linear([first / rate, last / rate], [box.left, box.right]);
  const shown = curve.filter(({ time }) => time >= first / rate && time <= last / rate);
  const highest = shown.reduce((most, { force }) => Math.max(most, force), 0);
  const y = linear(reaching(axis, highest - view.less), [box.bottom, box.top]);
  const marks: Mark[] = paperGrid(box, x, y, { x: liveWords.seconds, y: liveWords.axis[view.mode] }, measure);
  const inside: Mark[] = [];
  if (band !== undefined) inside.push(...bandMark(band, view, box, y, 'band-pen', liveWords.target));
  if (best !== undefined) inside.push(...bestMark(best, view, box, y));
  if (shown.length > 1)
    inside.push({
      kind: 'path',
      points: shown.flatMap(({ time, force }) => [x.at(time), y.at(force - view.less)]),
      stroke: { ink: 'ink', width: 2.4 },
    });
  inside.push(
    ...evidenceMarks(
      evidence,
      box,
      (index) => {
        const force = forceAt(index);
        return force === undefined ? undefined : { x: x.at(index / rate), y: y.at(force - view.less) };
      },
      measure,
    ),
  );
  const clip = { x: box.left, y: box.top - 12, width: box.right - box.left, height: box.bottom - box.top + 12 };
  return { width, height, marks: [...marks, { kind: 'clip', ...clip, marks: inside }] };
}
