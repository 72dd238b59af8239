import type { TrialContext } from '../analysis/trial-context.ts';
import type { SampleSpan } from '../recording/sample.ts';
import type { Load } from './loads.ts';
import type { PartId } from './parts.ts';
import type { CheckedRig, UncertaintySources } from './sources.ts';

/**
 * One independent error of the size of its standard uncertainty. An input that several forces share is one error that moves all of them,
 * so that whatever cancels in a value's formula cancels here.
 */
export interface ElementaryError {
  readonly part: PartId;
  /** Added to what a plate shows, by the force it shows; absent where the error moves no force. */
  readonly onForce?: (force: number) => number;
  /** Samples it moves, `end` exclusive; absent: all. */
  readonly span?: SampleSpan;
  /** Plates it moves; absent: all. */
  readonly plates?: readonly number[];
  /** Added to W; absent where W moves with the plates, see `reachesWeight`. */
  readonly onWeight?: number;
  /** Whether W was weighed with the same error on the plates. */
  readonly reachesWeight?: boolean;
  /** By how much the plates are late, s. */
  readonly late?: number;
}

/** What errors are made from: the forces, and where W comes from. A jump has both as a pull has. */
export type Disturbable = Pick<TrialContext, 'forces' | 'bodyWeight'>;

/** The errors of a trial, and the parts of which nothing is known. */
export interface Errors {
  readonly known: readonly ElementaryError[];
  /** Errors of a nominal size, to see which values an unknown part would move. */
  readonly probes: readonly ElementaryError[];
}

/** Sizes of the probes: what such a part might be. They enter no result. */
const nominal = {
  rig: { gain: 0.005, plateGain: 0.005, repeatability: 1, linearity: 1, largestForce: 1, growth: 0 },
  weight: 5,
  late: 0.001,
} as const;

/**
 * All errors of a trial. The rig's are in newtons; a test in another unit has no check that speaks of it.
 *
 * @param loadings stretches on the plates with emptiness between them, each a loading of its own; absent: one loading all the time
 */
export function errorsOf(
  trial: Disturbable,
  loads: readonly Load[],
  sources: UncertaintySources,
  loadings?: readonly SampleSpan[],
): Errors {
  const known: ElementaryError[] = [];
  const probes: ElementaryError[] = [];
  const rig = trial.forces.unit === 'N' ? sources.rig : undefined;
  const add = (part: PartId, errors: readonly ElementaryError[] | undefined) => {
    if (errors !== undefined) known.push(...errors);
    else probes.push(...rigErrors(part, trial, loads, nominal.rig, loadings));
  };
  for (const part of ['gain', 'repeatability', 'linearity', 'beyond-check'] as const)
    add(part, rig && rigErrors(part, trial, loads, rig, loadings));
  add('plate-gain', rig?.plateGain === undefined ? undefined : rigErrors('plate-gain', trial, loads, rig));
  if (trial.bodyWeight.ok) {
    const { weight } = sources;
    if (weight && trial.bodyWeight.value.from !== 'given')
      known.push({ part: 'body-weight', onWeight: weight.standard });
    else probes.push({ part: 'body-weight', onWeight: nominal.weight });
  }
  if (loads.length > 1) {
    const late = { part: 'synchronisation', plates: lateLoads(loads) } as const;
    if (sources.synchronisation === undefined) probes.push({ ...late, late: nominal.late });
    else if (sources.synchronisation > 0) known.push({ ...late, late: sources.synchronisation });
  }
  return { known, probes };
}

/** The plates that are late against the others: those of the right, else all but the first. */
function lateLoads(loads: readonly Load[]): readonly number[] {
  const right = loads.flatMap(({ side }, i) => (side === 'right' ? [i] : []));
  return right.length > 0 ? right : loads.slice(1).map((_, i) => i + 1);
}

/** Whether W was read from the same plates; a given one was not. */
const weighedHere = ({ bodyWeight }: Disturbable): boolean => bodyWeight.ok && bodyWeight.value.from !== 'given';

function rigErrors(
  part: PartId,
  trial: Disturbable,
  loads: readonly Load[],
  rig: CheckedRig,
  loadings?: readonly SampleSpan[],
): readonly ElementaryError[] {
  const reachesWeight = weighedHere(trial);
  const each = (make: (plate: Load) => readonly ((force: number) => number)[]): ElementaryError[] =>
    loads.flatMap((load, i) => make(load).map((onForce) => ({ part, onForce, plates: [i], reachesWeight })));
  switch (part) {
    case 'gain':
      return [{ part, onForce: (force) => rig.gain * force, reachesWeight }];
    case 'plate-gain': {
      const { plateGain = 0 } = rig;
      return loads.length < 2 ? [] : each(() => [(force) => plateGain * force]);
    }
    case 'repeatability':
      return repeatability(trial, loads, rig.repeatability, loadings);
    case 'linearity':
      return each((load) => {
        const turn = Math.PI / 2 / Math.max(rig.largestForce, largestOf(load));
        return [(force) => rig.linearity * Math.cos(turn * force), (force) => rig.linearity * Math.sin(turn * force)];
      });
    case 'beyond-check': {
      const { growth, largestForce } = rig;
      if (growth === 0 || loads.every((load) => largestOf(load) <= largestForce)) return [];
      return each(() => [(force) => growth * Math.max(0, force - largestForce)]);
    }
    default:
      return [];
  }
}

/**
 * One offset of each plate for the loading of the pull. A weighing was a loading of its own; W from the baseline belongs to the pull's,
 * so that the offset cancels in what is above it.
 */
function repeatability(
  trial: Disturbable,
  loads: readonly Load[],
  size: number,
  loadings: readonly SampleSpan[] | undefined,
): readonly ElementaryError[] {
  const part = 'repeatability' as const;
  const from = trial.bodyWeight.ok ? trial.bodyWeight.value.from : undefined;
  const pull = loads.flatMap((_, i) => {
    const offset = { part, onForce: () => size, plates: [i], reachesWeight: from === 'baseline' };
    return loadings === undefined ? [offset] : loadings.map((span) => ({ ...offset, span }));
  });
  if (from !== 'weighing') return pull;
  return [...pull, ...loads.flatMap(({ inTotal }) => (inTotal ? [{ part, onWeight: size }] : []))];
}

function largestOf({ force }: Load): number {
  let largest = 0;
  for (const value of force) if (value > largest) largest = value;
  return largest;
}
