import type { Curve, LiveVerdict } from '@sthene/contract';
import { paperGrid } from '../../curve/grid.ts';
import { linear } from '../../curve/scale.ts';
import type { Mark, Measure, Scene } from '../../curve/scene.ts';
import type { Trace } from '../../live/index.ts';
import { liveWords } from '../../words/live.ts';
import { sampleColumns, traceColumns } from './columns.ts';
import { evidenceMarks } from './evidence-marks.ts';
import { type Column, extremeLine } from './extreme-line.ts';
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

/** The stored effort with the evidence of its verdict: where it began, peaked and ended. */
export function storedScene(input: JudgedSceneInput & { readonly curve: Curve }): Scene {
  const { curve, width, evidence } = input;
  const total = curve.values[curve.series.findIndex(({ of }) => of === 'total')] ?? [];
  const { sampleRate: rate, samples } = curve;
  const shown = windowOf(evidence, rate, samples);
  const [first, last] = [Math.floor(shown.first), Math.floor(shown.last)];
  const step = Math.max(1, Math.floor((last - first) / width));
  const columns = [...sampleColumns(total, { first, last, step, rate })];
  return judgedScene(input, columns, rate, samples, (index) => total[Math.round(index)]);
}

/** The same from the live curve, where the stored one stays with the station. */
export function keptScene(input: JudgedSceneInput & { readonly trace: Trace }): Scene {
  const { trace, evidence, width } = input;
  const { rate, bucket, high } = trace;
  const { first, last } = windowOf(evidence, rate, evidence.span.end);
  const columns = [...traceColumns(trace, evidence.from, (width * rate) / (last - first))];
  const forceAt = (index: number) => high[Math.floor((index + evidence.from - trace.first) / bucket)] ?? undefined;
  return judgedScene(input, columns, rate, evidence.span.end, forceAt);
}

function windowOf({ onset, end, touchdown }: LiveVerdict['evidence'], rate: number, samples: number) {
  const last = end ?? touchdown ?? samples;
  return { first: Math.max(0, (onset ?? 0) - 1.5 * rate), last: Math.min(samples - 1, last + 0.8 * rate) };
}

function judgedScene(
  { width, height, evidence, band, best, view, axis, measure }: JudgedSceneInput,
  curve: readonly (Column | undefined)[],
  rate: number,
  samples: number,
  forceAt: (index: number) => number | undefined,
): Scene {
  const box = { left: 62, top: 30, right: width - 12, bottom: height - 26 };
  const { first, last } = windowOf(evidence, rate, samples);
  const x = linear([first / rate, last / rate], [box.left, box.right]);
  const shown = curve.filter((one) => one === undefined || (one.until >= first / rate && one.from <= last / rate));
  const highest = shown.reduce((most, one) => Math.max(most, one?.high ?? 0), 0);
  const y = linear(reaching(axis, highest - view.less), [box.bottom, box.top]);
  const marks: Mark[] = paperGrid(box, x, y, { x: liveWords.seconds, y: liveWords.axis[view.mode] }, measure);
  const inside: Mark[] = [];
  if (band !== undefined) inside.push(...bandMark(band, view, box, y, 'band-pen', liveWords.target));
  if (best !== undefined) inside.push(...bestMark(best, view, box, y));
  inside.push(...extremeLine(shown, view.less, x, y));
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
