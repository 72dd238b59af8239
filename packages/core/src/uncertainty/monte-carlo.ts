import type { TrialContext } from '../analysis/trial-context.ts';
import type { Measured, MetricDefinition } from '../metrics/metric.ts';
import { have } from '../outcome.ts';
import { indexOfLargest, meanOf } from '../signal/index.ts';
import type { SeededRandom } from '../simulation/random.ts';
import { drawingForces } from './draw-forces.ts';
import { type Load, loadsOf } from './loads.ts';
import type { UncertaintySources } from './sources.ts';
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
  return spreadOver(metrics, draws, redrawing(stretch, loadsOf(stretch), sources, random));
}

/** Mean and SD of each metric over so many draws. */
export function spreadOver<T>(
  metrics: readonly { readonly id: string; readonly compute: (drawn: T) => Measured }[],
  draws: number,
  redraw: () => T,
): Record<string, Drawn> {
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

/** A function that gives the trial as it might have been measured; its arrays are used again by the next call. */
function redrawing(
  trial: TrialContext,
  loads: readonly Load[],
  sources: UncertaintySources,
  random: SeededRandom,
): () => TrialContext {
  const { forces, events, bodyWeight } = trial;
  const drawForces = drawingForces(forces, loads, sources, random);
  return () => {
    const { forces: made, standing, offsets } = drawForces();
    const [offset = 0] = offsets;
    const error = drawnWeight(bodyWeight, loads, sources, random, standing, offset);
    const { total } = made;
    const index = indexOfLargest(total, events.halfRise + 1, events.end + 1);
    const { baseline } = events;
    return {
      ...trial,
      forces: made,
      unfiltered: made,
      events: {
        ...events,
        quietLevel: events.quietLevel + standing + offset,
        peak: { index, force: total[index] as number },
        baseline: baseline.ok
          ? have({ ...baseline.value, mean: meanOf(total, baseline.value.start, baseline.value.end) })
          : baseline,
      },
      bodyWeight: bodyWeight.ok ? have({ ...bodyWeight.value, value: bodyWeight.value.value + error }) : bodyWeight,
    };
  };
}

/**
 * Error of W in one draw, N: what the same plates make of it, and its own spread. A weighing was a loading of its own; a given weight was
 * not read from these plates, and nobody knows how sure it is.
 *
 * @param offset that of the loading W was read in, where it was the effort's own
 */
export function drawnWeight(
  bodyWeight: TrialContext['bodyWeight'],
  loads: readonly Load[],
  { rig, weight }: UncertaintySources,
  random: SeededRandom,
  standing: number,
  offset: number,
): number {
  const from = bodyWeight.ok ? bodyWeight.value.from : 'given';
  const anew = loads.reduce(
    (sum, { inTotal }) => (inTotal ? sum + (rig?.repeatability ?? 0) * random.gaussian() : sum),
    0,
  );
  const spread = (weight?.standard ?? 0) * random.gaussian();
  return from === 'given' ? 0 : standing + (from === 'weighing' ? anew : offset) + spread;
}
