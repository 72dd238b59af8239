import type { TrialContext } from '../analysis/trial-context.ts';
import type { MetricDefinition } from '../metrics/metric.ts';
import { have } from '../outcome.ts';
import { indexOfLargest, meanOf } from '../signal/index.ts';
import type { SeededRandom } from '../simulation/random.ts';
import { valueWithin } from './disturbed.ts';
import { type Load, loadsOf } from './loads.ts';
import type { CheckedRig, UncertaintySources } from './sources.ts';
import { stretchOf } from './stretch.ts';

/** Mean and SD of a metric over the draws that gave a value. */
export interface Drawn {
  readonly mean: number;
  readonly standard: number;
  readonly draws: number;
}

/**
 * Propagation of distributions (JCGM 101:2008): every source is drawn from a normal distribution, the forces are made anew sample by sample,
 * peak, baseline and W are read from them again, and the whole metric is computed; the onset stays.
 *
 * It shares the models of the errors with `uncertainties` and none of its differences, so that each checks the other. Sources that are not
 * known are not drawn.
 *
 * @param random a seeded generator; the same seed gives the same draws
 * @returns by metric id; metrics that never gave a value are left out
 */
export function drawMetrics(
  trial: TrialContext,
  metrics: readonly MetricDefinition[],
  sources: UncertaintySources,
  draws: number,
  random: SeededRandom,
): Record<string, Drawn> {
  const stretch = stretchOf(trial);
  const redraw = redrawing(stretch, loadsOf(stretch), sources, random);
  const sums = metrics.map(() => ({ n: 0, mean: 0, squares: 0 }));
  for (let draw = 0; draw < draws; draw++) {
    const drawn = redraw();
    metrics.forEach((metric, at) => {
      const value = metric.compute(drawn);
      const sum = sums[at];
      if (!('value' in value) || sum === undefined) return;
      // Welford's recurrence: no square of a large number is ever taken.
      sum.n++;
      const apart = value.value - sum.mean;
      sum.mean += apart / sum.n;
      sum.squares += apart * (value.value - sum.mean);
    });
  }
  return Object.fromEntries(
    metrics.flatMap((metric, at) => {
      const { n, mean, squares } = sums[at] ?? { n: 0, mean: 0, squares: 0 };
      return n < 2 ? [] : [[metric.id, { mean, standard: Math.sqrt(squares / (n - 1)), draws: n }]];
    }),
  );
}

/** Numbers drawn once for a plate in one draw. */
interface PlateDraw {
  readonly gain: number;
  readonly offset: number;
  readonly cosine: number;
  readonly sine: number;
  readonly beyond: number;
}

/** A function that gives the trial as it might have been measured; its arrays are used again by the next call. */
function redrawing(
  trial: TrialContext,
  loads: readonly Load[],
  sources: UncertaintySources,
  random: SeededRandom,
): () => TrialContext {
  const { forces, events, bodyWeight } = trial;
  const rig = forces.unit === 'N' ? sources.rig : undefined;
  const turns = loads.map(({ force }) => {
    const largest = force.reduce((most, value) => Math.max(most, value), 0);
    return Math.PI / 2 / Math.max(rig?.largestForce ?? 1, largest);
  });
  const shapes = loads.map(({ force }, p) => shapesOf(force, turns[p] as number, rig));
  const total = new Float64Array(forces.sampleCount);
  const left = forces.left && new Float64Array(forces.sampleCount);
  const right = forces.right && new Float64Array(forces.sampleCount);
  const from = bodyWeight.ok ? bodyWeight.value.from : 'given';
  const hasRight = loads.some(({ side }) => side === 'right');
  const isLate = (p: number) => (hasRight ? loads[p]?.side === 'right' : p > 0);

  const errorAt = (draw: PlateDraw, p: number, force: number): number => {
    if (rig === undefined) return 0;
    const turn = turns[p] as number;
    return (
      draw.gain * force +
      draw.cosine * Math.cos(turn * force) +
      draw.sine * Math.sin(turn * force) +
      draw.beyond * Math.max(0, force - rig.largestForce)
    );
  };

  return () => {
    const common = (rig?.gain ?? 0) * random.gaussian();
    const late = loads.length > 1 ? (sources.synchronisation ?? 0) * random.gaussian() * forces.sampleRate : 0;
    const plates = loads.map((): PlateDraw => {
      const own = loads.length > 1 ? (rig?.plateGain ?? 0) * random.gaussian() : 0;
      return {
        gain: common + own,
        offset: (rig?.repeatability ?? 0) * random.gaussian(),
        cosine: (rig?.linearity ?? 0) * random.gaussian(),
        sine: (rig?.linearity ?? 0) * random.gaussian(),
        beyond: (rig?.growth ?? 0) * random.gaussian(),
      };
    });
    total.fill(0);
    left?.fill(0);
    right?.fill(0);
    loads.forEach(({ side, force, inTotal }, p) => {
      const { cosines, sines, over } = shapes[p] as ReturnType<typeof shapesOf>;
      const { gain, offset, cosine, sine, beyond } = plates[p] as PlateDraw;
      const own = side === 'left' ? left : side === 'right' ? right : undefined;
      const shift = isLate(p) ? late : 0;
      for (let i = 0; i < force.length; i++) {
        let shown = (force[i] as number) * (1 + gain) + offset;
        if (rig !== undefined)
          shown += cosine * (cosines[i] as number) + sine * (sines[i] as number) + beyond * (over[i] as number);
        if (shift !== 0) shown += valueWithin(force, i - shift) - (force[i] as number);
        if (inTotal) total[i] = (total[i] as number) + shown;
        if (own) own[i] = (own[i] as number) + shown;
      }
    });
    addNoise(total, left, right, sources, random);

    const standing = loads.reduce((sum, load, p) => {
      const draw = plates[p] as PlateDraw;
      return load.inTotal ? sum + errorAt(draw, p, load.standing) : sum;
    }, 0);
    const offsets = loads.reduce((sum, { inTotal }, p) => (inTotal ? sum + (plates[p] as PlateDraw).offset : sum), 0);
    const anew = loads.reduce(
      (sum, { inTotal }) => (inTotal ? sum + (rig?.repeatability ?? 0) * random.gaussian() : sum),
      0,
    );
    const reached = from === 'given' ? 0 : standing + (from === 'weighing' ? anew : offsets);
    const spread = (from === 'given' ? 0 : (sources.weight?.standard ?? 0)) * random.gaussian();
    const index = indexOfLargest(total, events.halfRise + 1, events.end + 1);
    const { baseline } = events;
    const made = { ...forces, total, ...(left ? { left } : {}), ...(right ? { right } : {}) };
    return {
      ...trial,
      forces: made,
      unfiltered: made,
      events: {
        ...events,
        quietLevel: events.quietLevel + standing + offsets,
        peak: { index, force: total[index] as number },
        baseline: baseline.ok
          ? have({ ...baseline.value, mean: meanOf(total, baseline.value.start, baseline.value.end) })
          : baseline,
      },
      bodyWeight: bodyWeight.ok
        ? have({ ...bodyWeight.value, value: bodyWeight.value.value + reached + spread })
        : bodyWeight,
    };
  };
}

/** What the errors of a rig look like on a plate's own curve, so that a draw is sums and products only. */
function shapesOf(force: Float64Array, turn: number, rig: CheckedRig | undefined) {
  const empty = new Float64Array(0);
  if (rig === undefined) return { cosines: empty, sines: empty, over: empty };
  return {
    cosines: force.map((value) => Math.cos(turn * value)),
    sines: force.map((value) => Math.sin(turn * value)),
    over: force.map((value) => Math.max(0, value - rig.largestForce)),
  };
}

/** White noise of each side, and with it of the sum; of the sum alone where there are no sides. */
function addNoise(
  total: Float64Array,
  left: Float64Array | undefined,
  right: Float64Array | undefined,
  { noise }: UncertaintySources,
  random: SeededRandom,
): void {
  if (noise === undefined) return;
  const { left: ofLeft, right: ofRight } = noise;
  if (left === undefined || right === undefined || ofLeft === undefined || ofRight === undefined) {
    for (let i = 0; i < total.length; i++) total[i] = (total[i] as number) + noise.total * random.gaussian();
    return;
  }
  for (let i = 0; i < total.length; i++) {
    const [l, r] = [ofLeft * random.gaussian(), ofRight * random.gaussian()];
    left[i] = (left[i] as number) + l;
    right[i] = (right[i] as number) + r;
    total[i] = (total[i] as number) + l + r;
  }
}
