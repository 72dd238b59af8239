import { unitText } from '../number/format.ts';
import { words } from '../words/index.ts';
import type { Stretch } from './envelope.ts';
import { type CurveModel, type Evidence, noEvidence, type Series } from './model.ts';
import { Pyramid } from './pyramid.ts';

/** Forces ready to be drawn, wherever they come from. */
export interface PlainForces {
  readonly sampleRate: number;
  readonly samples: number;
  readonly unit: string;
  readonly total: Float64Array;
  readonly left?: Float64Array | undefined;
  readonly right?: Float64Array | undefined;
  readonly gaps: { readonly filled: readonly Stretch[]; readonly open: readonly Stretch[] };
}

/** A curve of total, left and right as a trial draws them, with the evidence given. */
export function plainModel(forces: PlainForces, evidence: Evidence = noEvidence): CurveModel {
  const { curve } = words;
  const { sampleRate: rate, gaps } = forces;
  const line = (values: Float64Array) => ({ pyramid: new Pyramid(values), rate, start: 0, breaks: gaps.open });
  const series: Series[] = [
    { ...line(forces.total), id: 'total', name: curve.total, letter: curve.totalLetter, ink: 'ink', width: 1.8 },
  ];
  // One plate alone is the total; a second line on top of it would only hide it.
  const sided = forces.left !== undefined && forces.right !== undefined;
  if (forces.left && sided)
    series.push({
      ...line(forces.left),
      id: 'left',
      name: curve.left,
      letter: curve.leftLetter,
      ink: 'left',
      dash: [8, 3.5],
      width: 1.7,
    });
  if (forces.right && sided)
    series.push({
      ...line(forces.right),
      id: 'right',
      name: curve.right,
      letter: curve.rightLetter,
      ink: 'right',
      dash: [2, 2.5],
      width: 1.8,
    });
  return {
    rate,
    samples: forces.samples,
    start: 0,
    unit: forces.unit,
    timeTitle: curve.time,
    forceTitle: curve.force(unitText(forces.unit)),
    series,
    gaps,
    evidence,
    gapWords: curve.gap,
  };
}
