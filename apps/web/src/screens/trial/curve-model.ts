import type { Curve, TrialView } from '@sthene/contract';
import type { Stretch } from '../../curve/envelope.ts';
import { type Balance, balanceOf, type CurveModel, type Evidence, type Series } from '../../curve/model.ts';
import { Pyramid } from '../../curve/pyramid.ts';
import type { Ink } from '../../curve/scene.ts';
import { unitText } from '../../number/format.ts';
import { words } from '../../words/index.ts';
import { jumpSpan } from './jump-evidence.ts';
import { onsetOf, type Result } from './numbers.ts';

/** A curve made ready for drawing; costly parts are computed once. */
export interface Lines {
  readonly curve: Curve;
  readonly open: readonly Stretch[];
  readonly filled: readonly Stretch[];
  readonly pyramids: readonly Pyramid[];
  readonly balance?: Balance;
}

const stretches = (pairs: readonly (readonly [number, number])[]): Stretch[] =>
  pairs.map(([start, end]) => ({ start, end }));

/** Index of the series of one kind, or -1. */
const indexOf = (curve: Curve, of: 'total' | 'left' | 'right') => curve.series.findIndex((series) => series.of === of);

/** Samples of one kind. */
export const valuesOf = (curve: Curve, of: 'total' | 'left' | 'right'): Float64Array | undefined =>
  curve.values[indexOf(curve, of)];

/** Prepares a curve: pyramids of all series and the balance of the sides, where there are two. */
export function linesOf(curve: Curve, result: Result): Lines {
  const open = stretches(curve.gaps.open);
  const left = valuesOf(curve, 'left');
  const right = valuesOf(curve, 'right');
  const { events, jump } = result;
  const judged = jump
    ? jumpSpan(result, jump)
    : events
      ? { start: onsetOf(result)?.baseline.start ?? events.halfRise, end: events.end }
      : { start: 0, end: curve.samples };
  return {
    curve,
    open,
    filled: stretches(curve.gaps.filled),
    pyramids: curve.values.map((values) => new Pyramid(values)),
    ...(left && right && curve.unit === 'N' ? { balance: balanceOf(left, right, open, judged) } : {}),
  };
}

/** Another trial drawn over this one. */
export interface OtherTrial {
  readonly view: TrialView;
  readonly curve: Curve;
  readonly pyramid: Pyramid;
}

export interface Shown {
  readonly sides: boolean;
  readonly plates: boolean;
  readonly evidence: boolean;
}

const otherInks: readonly Ink[] = ['other-1', 'other-2', 'other-3'];
const otherDashes: readonly (readonly number[])[] = [
  [10, 4],
  [4, 4],
  [14, 3, 3, 3],
  [1.5, 3],
  [8, 3, 1.5, 3],
];

/** Joins lines, evidence and overlaid trials into what the curve draws. */
export function curveModel(
  view: TrialView,
  lines: Lines,
  shown: Shown,
  evidence: Evidence,
  others: readonly OtherTrial[],
): CurveModel {
  const { curve } = lines;
  const onset = onsetOf(view.result);
  const aligned = others.length > 0 && onset !== undefined;
  const start = aligned ? -onset.index / curve.sampleRate : 0;
  const own = { rate: curve.sampleRate, start, breaks: lines.open };
  const series: Series[] = [];
  curve.series.forEach((one, i) => {
    const pyramid = lines.pyramids[i];
    if (!pyramid) return;
    const base = { ...own, pyramid };
    if (one.of === 'total')
      series.unshift({
        ...base,
        id: 'total',
        name: words.curve.total,
        letter: words.curve.totalLetter,
        ink: 'ink',
        width: 1.8,
      });
    else if (one.of === 'plate' && shown.plates)
      series.push({
        ...base,
        id: `plate_${one.name}`,
        name: one.name,
        letter: one.name,
        ink: 'ink-soft',
        dash: [1, 2.5],
        width: 1.2,
      });
    else if (one.of === 'left' && shown.sides)
      series.push({
        ...base,
        id: 'left',
        name: words.curve.left,
        letter: words.curve.leftLetter,
        ink: 'left',
        dash: [8, 3.5],
        width: 1.7,
      });
    else if (one.of === 'right' && shown.sides)
      series.push({
        ...base,
        id: 'right',
        name: words.curve.right,
        letter: words.curve.rightLetter,
        ink: 'right',
        dash: [2, 2.5],
        width: 1.8,
      });
  });
  if (aligned) series.push(...others.flatMap(otherSeries));
  return {
    rate: curve.sampleRate,
    samples: curve.samples,
    start,
    unit: curve.unit,
    timeTitle: aligned ? words.curve.timeFromOnset : words.curve.time,
    forceTitle: words.curve.force(unitText(curve.unit)),
    series,
    gaps: { filled: lines.filled, open: lines.open },
    evidence,
    ...(lines.balance && shown.sides ? { balance: lines.balance } : {}),
    gapWords: words.curve.gap,
  };
}

function otherSeries(other: OtherTrial, place: number): Series[] {
  const onset = onsetOf(other.view.result);
  if (!onset) return [];
  const name = words.trial.trialN(other.view.order);
  return [
    {
      id: `trial_${other.view.order}_total`,
      name,
      letter: name,
      ink: otherInks[place % otherInks.length] ?? 'ink-soft',
      dash: otherDashes[place % otherDashes.length] ?? [4, 4],
      width: 1.5,
      pyramid: other.pyramid,
      rate: other.curve.sampleRate,
      start: -onset.index / other.curve.sampleRate,
      breaks: stretches(other.curve.gaps.open),
    },
  ];
}
