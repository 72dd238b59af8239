import type { TrialContext } from '../analysis/trial-context.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { meanOf } from '../signal/index.ts';

/** A plate as errors see it. */
export interface Load {
  readonly side: 'left' | 'right' | 'none' | 'total';
  readonly force: Float64Array;
  /** Whether its force is part of F: with a declared total only that is. */
  readonly inTotal: boolean;
  /** What it carried while the athlete stood: its share of W, or of the quiet level in a test without. */
  readonly standing: number;
}

/** The plates of a trial; where none are told apart, the sides, else the sum as one plate. */
export function loadsOf({ forces, events, bodyWeight }: TrialContext): readonly Load[] {
  const level = bodyWeight.ok ? bodyWeight.value.value : events.quietLevel;
  return loadsWhile(forces, level, events.baseline.ok ? events.baseline.value : undefined);
}

/**
 * The plates, with what each carried of a level while somebody stood still.
 *
 * @param standing samples of that; without them all plates carried the same
 */
export function loadsWhile(forces: Forces, level: number, standing: SampleSpan | undefined): readonly Load[] {
  const plates = platesOf(forces);
  const declared = plates.some(({ side }) => side === 'total');
  const inTotal = plates.map(({ side }) => !declared || side === 'total');
  const means = plates.map(({ force }) => (standing === undefined ? 1 : meanOf(force, standing.start, standing.end)));
  const sum = means.reduce((all, mean, i) => (inTotal[i] ? all + mean : all), 0);
  return plates.map(({ side, force }, i) => ({
    side,
    force,
    inTotal: inTotal[i] as boolean,
    standing: sum === 0 ? 0 : (level * (means[i] as number)) / sum,
  }));
}

function platesOf(forces: Forces): readonly Pick<Load, 'side' | 'force'>[] {
  if (forces.plates.length > 0) return forces.plates;
  const { left, right, total } = forces;
  if (left === undefined || right === undefined) return [{ side: 'none', force: total }];
  return [
    { side: 'left', force: left },
    { side: 'right', force: right },
  ];
}
