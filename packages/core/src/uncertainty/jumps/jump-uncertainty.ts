import type { JudgedJump } from '../../jumps/found-jumps.ts';
import type { JumpContext } from '../../jumps/jump-context.ts';
import { fromStanding } from '../../jumps/kinds.ts';
import type { JumpMetricDefinition } from '../../jumps/metrics/index.ts';
import { resumed } from '../../jumps/resumed.ts';
import type { Measured } from '../../metrics/metric.ts';
import { have, lack, type Outcome } from '../../outcome.ts';
import { samplesIn } from '../../signal/index.ts';
import { halfDifference, rootSumOfSquares } from '../combine.ts';
import { errorsOf } from '../errors.ts';
import type { Load } from '../loads.ts';
import {
  coverage,
  flightTimingWords,
  jumpOnsetTimingWords,
  type PartId,
  partIds,
  partWords,
  type Uncertainty,
  type UncertaintyPart,
} from '../parts.ts';
import { noiseWithoutSide } from '../sample-noise.ts';
import type { UncertaintySources } from '../sources.ts';
import { disturbedJump, loadingsOf, loadsOfJump } from './disturbed-jump.ts';
import { eventTiming, type Timings } from './event-timing.ts';
import { type Crossing, crossingOf, type Instant, instantsOf, movedInstant } from './instants.ts';
import { piecesOf, scratchOf } from './jump-noise.ts';

/** A change smaller than this share of the value is rounding, not an effect. */
const rounding = 1e-9;
/** How far an instant is moved to see what it gives a value, s. */
const step = 0.002;
/** SD of a place within one sample, in samples: rectangular. */
const withinSample = 1 / Math.sqrt(12);

type Value = Extract<Measured, { readonly value: number }>;

/**
 * The uncertainty of metrics of one jump, part by part (GUM, k = 2).
 *
 * Every error is one small disturbance of the jump, as for isometric efforts. A jump's values are bounded by instants that the same forces
 * decide (where v passes 0, where F passes the threshold of the flight), so that each error reaches a value twice: with the instants held,
 * by half differences of the metric's own `compute`, and through each instant, by how far it moves (the first-order crossing) times what
 * the value changes for each sample of it. White noise is the same sum over short pieces of the curve, each moved by S / sqrt(n).
 *
 * Sources: JCGM 100:2008 (GUM) 5.1.2, 5.1.3 note 2, 6.3; definition in docs/reference/uncertainty.md.
 *
 * @returns by metric id; the value's own reason, or `sources-not-known` where no part of it is known
 */
export function jumpUncertainties(
  judged: JudgedJump,
  metrics: readonly JumpMetricDefinition[],
  sources: UncertaintySources,
): Record<string, Outcome<Uncertainty>> {
  const { jump } = judged;
  const values = metrics.map((metric) => metric.compute(jump));
  const reach = reachOf(jump, metrics, values);
  const loads = loadsOfJump(jump);
  const effects = metrics.map(() => new Map<PartId, number[]>());
  const missing = metrics.map(() => new Set<PartId>());
  const { known, probes } = errorsOf(jump, loads, sources, loadingsOf(jump));
  const effectsOf = (error: (typeof known)[number]) =>
    reach.effects(
      reach.observed(disturbedJump(jump, loads, error, 1)),
      reach.observed(disturbedJump(jump, loads, error, -1)),
    );
  for (const error of known)
    effectsOf(error).forEach((effect, at) => {
      if (effect !== undefined) add(effects[at], error.part, effect);
    });
  for (const error of probes) {
    if (missing.every((parts) => parts.has(error.part))) continue;
    effectsOf(error).forEach((effect, at) => {
      if (effect !== undefined && effect !== 0) missing[at]?.add(error.part);
    });
  }
  if (sources.noise === undefined) for (const parts of missing) parts.add('noise');
  else addNoise(judged, reach, values, loads, sources.noise, effects);
  const timing = eventTiming(judged);
  return Object.fromEntries(
    metrics.map((metric, at): [string, Outcome<Uncertainty>] => {
      const value = values[at] as Measured;
      if (!('value' in value)) return [metric.id, lack(value.reason)];
      const grid = reach.ofGrid(at);
      if (grid > 0) add(effects[at], 'sampling', grid);
      return [metric.id, combined(value, effects[at] ?? new Map(), missing[at] ?? new Set(), timing(metric))];
    }),
  );
}

const add = (to: Map<PartId, number[]> | undefined, part: PartId, effect: number): void => {
  const there = to?.get(part);
  if (there === undefined) to?.set(part, [effect]);
  else there.push(effect);
};

/** What is looked at under one error: every value, and what every instant crosses. */
interface Observed {
  readonly values: readonly (number | undefined)[];
  readonly crossings: readonly number[];
}

/** Values that are known to be the same under an error as they were, by metric. */
interface Known {
  readonly stays: readonly boolean[];
  readonly values: Observed['values'];
}

/** How an error comes to the values of one jump. */
interface Reach {
  readonly instants: readonly Instant[];
  readonly observed: (jump: JumpContext, known?: Known) => Observed;
  /** By metric: half the difference of both, and what the instants move; undefined where there is no value. */
  readonly effects: (
    above: Observed,
    below: Observed,
    direct?: (more: number, less: number, value: number) => number,
  ) => (number | undefined)[];
  /** What is left open because instants are whole samples. */
  readonly ofGrid: (metric: number) => number;
}

/** Change of a value for a sample by which its instant lies later; from one side where there is no value on the other. */
function slopeAt(value: number, later: number | undefined, earlier: number | undefined, by: number): number {
  if (later === undefined) return earlier === undefined ? 0 : (value - earlier) / by;
  return earlier === undefined ? (later - value) / by : (later - earlier) / (2 * by);
}

function reachOf(jump: JumpContext, metrics: readonly JumpMetricDefinition[], values: readonly Measured[]): Reach {
  const instants = instantsOf(jump);
  const crossings: readonly Crossing[] = instants.map((instant) => crossingOf(jump, instant));
  const by = Math.max(1, samplesIn(step, jump.forces.sampleRate));
  const numbers = (one: JumpContext | undefined, known?: Known) =>
    metrics.map((metric, at) => {
      if (one === undefined || !('value' in (values[at] as Measured))) return undefined;
      if (known?.stays[at]) return known.values[at];
      const found = metric.compute(one);
      return 'value' in found ? found.value : undefined;
    });
  const slopes = instants.map((instant) => {
    const [later, earlier] = [numbers(movedInstant(jump, instant, by)), numbers(movedInstant(jump, instant, -by))];
    return values.map((value, at) => ('value' in value ? slopeAt(value.value, later[at], earlier[at], by) : 0));
  });
  return {
    instants,
    observed: (one, known) => ({ values: numbers(one, known), crossings: crossings.map(({ of }) => of(one)) }),
    effects: (above, below, direct = halfDifference) => {
      const moved = crossings.map(({ slope }, i) => {
        const change = halfDifference(above.crossings[i] as number, below.crossings[i] as number);
        return slope === 0 || !Number.isFinite(change) ? 0 : -change / slope;
      });
      return metrics.map((_, at) => {
        const [value, more, less] = [values[at] as Measured, above.values[at], below.values[at]];
        if (!('value' in value) || more === undefined || less === undefined) return undefined;
        const through = moved.reduce((sum, samples, i) => sum + samples * (slopes[i]?.[at] ?? 0), 0);
        const effect = direct(more, less, value.value) + through;
        return Math.abs(effect) <= rounding * sizeOf(value) ? 0 : effect;
      });
    },
    ofGrid: (at) => withinSample * rootSumOfSquares(slopes.map((of) => of[at] ?? 0)),
  };
}

/** Sides that are quite even have an asymmetry of next to nothing, and yet it is a share of a hundred. */
const sizeOf = ({ unit, value }: Value): number => (unit === '%' ? 100 : Math.abs(value));

/**
 * Which side of a value that is the highest of many samples noise is told by: of the highest itself the larger, so that S is a bound; of
 * the samples beside it the smaller, for they are not the highest. Everything else has both sides alike.
 */
const oneSided =
  (isAlone: boolean) =>
  (more: number, less: number, value: number): number =>
    Math.abs(more - value) >= Math.abs(value - less) === isAlone ? more - value : value - less;

/** Whether a value looks at no sample after the take-off: those of a jump from standing whose evidence ends there, as tests hold. */
const endsOnGround = (value: Measured, { kind, events }: JumpContext): boolean =>
  fromStanding.includes(kind) && (value.evidence?.interval?.end ?? Number.POSITIVE_INFINITY) <= events.takeOff;

function addNoise(
  { jump, method }: JudgedJump,
  reach: Reach,
  values: readonly Measured[],
  loads: readonly Load[],
  noise: NonNullable<UncertaintySources['noise']>,
  effects: readonly Map<PartId, number[]>[],
): void {
  const singles = values.flatMap((value) => {
    if (!('value' in value)) return [];
    const { interval, points } = value.evidence;
    const at = interval !== undefined && interval.start === interval.end ? [interval.start] : [];
    return [...at, ...(points?.map((point) => point.at) ?? [])];
  });
  const { left, right } = noise;
  const sides = loads.length > 1 && left !== undefined && right !== undefined;
  const without = noiseWithoutSide(noise);
  const drawn = sides
    ? ([['left', left], ['right', right], ...(without > 0 ? [['total', without] as const] : [])] as const)
    : ([['total', noise.total]] as const);
  // Behind a low-pass fs / (2 fc) samples move together.
  const dependent = method.filter === undefined ? 1 : Math.max(1, jump.forces.sampleRate / (2 * method.filter.cutoff));
  const scratch = scratchOf(jump.forces);
  const from = resumed(jump, scratch.forces);
  const { takeOff } = jump.events;
  const stays = values.map((value) => endsOnGround(value, jump));
  let known: Known | undefined;
  for (const piece of piecesOf(jump, reach.instants, singles, dependent)) {
    // Every piece before the take-off has come and gone.
    if (known === undefined && piece.start > takeOff)
      known = { stays, values: reach.observed(from(piece.start)).values };
    const found = () => reach.observed(from(piece.start), known);
    const independent = Math.max(1, (piece.end - piece.start) / dependent);
    for (const [of, sd] of drawn) {
      const size = sd / Math.sqrt(independent);
      scratch.add(of, piece, size);
      const above = found();
      scratch.add(of, piece, -2 * size);
      const below = found();
      scratch.add(of, piece, size);
      reach.effects(above, below, oneSided(piece.end - piece.start === 1)).forEach((effect, at) => {
        if (effect !== undefined && effect !== 0) add(effects[at], 'noise', effect);
      });
    }
  }
}

function combined(
  { unit }: Value,
  effects: ReadonlyMap<PartId, readonly number[]>,
  unknown: ReadonlySet<PartId>,
  { onset, flight }: Timings,
): Outcome<Uncertainty> {
  const parts = partIds.flatMap((id): UncertaintyPart[] => {
    const of = effects.get(id);
    return of === undefined ? [] : [{ id, words: partWords[id], standard: rootSumOfSquares(of) }];
  });
  const standard = rootSumOfSquares(parts.map((part) => part.standard));
  // What no part reaches, as a count, has no uncertainty of this kind.
  if (standard === 0) return lack(unknown.size === 0 ? 'not-defined' : 'sources-not-known');
  return have({
    ...{ standard, expanded: coverage * standard, coverage, unit, parts },
    unknown: partIds.filter((id) => unknown.has(id)).map((id) => ({ id, words: partWords[id] })),
    ...(onset === undefined ? {} : { onsetTiming: { words: jumpOnsetTimingWords, standard: onset } }),
    ...(flight === undefined ? {} : { flightTiming: { words: flightTimingWords, standard: flight } }),
  });
}
