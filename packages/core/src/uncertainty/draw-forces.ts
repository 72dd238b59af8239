import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import type { SeededRandom } from '../simulation/random.ts';
import { valueWithin } from './disturbed.ts';
import type { Load } from './loads.ts';
import { noiseWithoutSide } from './sample-noise.ts';
import type { CheckedRig, UncertaintySources } from './sources.ts';

/** Forces as they might have been measured, and what the same errors make of a weight read from the same plates. */
export interface DrawnForces {
  readonly forces: Forces;
  /** Error of what the plates carried while somebody stood, offsets of the loadings left out, N. */
  readonly standing: number;
  /** Offset of all plates together, by loading, N. */
  readonly offsets: readonly number[];
}

/** Numbers drawn once for a plate in one draw. */
interface PlateDraw {
  readonly gain: number;
  /** By loading. */
  readonly offsets: readonly number[];
  readonly cosine: number;
  readonly sine: number;
  readonly beyond: number;
}

/**
 * A function that gives the forces as they might have been measured; its arrays are used again by the next call. Sources that are not
 * known are not drawn.
 *
 * @param loadings stretches on the plates, each with an offset of its own; absent: one offset for all samples
 */
export function drawingForces(
  forces: Forces,
  loads: readonly Load[],
  sources: UncertaintySources,
  random: SeededRandom,
  loadings: readonly SampleSpan[] = [{ start: 0, end: forces.sampleCount }],
): () => DrawnForces {
  const rig = forces.unit === 'N' ? sources.rig : undefined;
  const turns = loads.map(({ force }) => {
    const largest = force.reduce((most, value) => Math.max(most, value), 0);
    return Math.PI / 2 / Math.max(rig?.largestForce ?? 1, largest);
  });
  const shapes = loads.map(({ force }, p) => shapesOf(force, turns[p] as number, rig));
  const total = new Float64Array(forces.sampleCount);
  const left = forces.left && new Float64Array(forces.sampleCount);
  const right = forces.right && new Float64Array(forces.sampleCount);
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
        offsets: loadings.map(() => (rig?.repeatability ?? 0) * random.gaussian()),
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
      const { gain, offsets, cosine, sine, beyond } = plates[p] as PlateDraw;
      const own = side === 'left' ? left : side === 'right' ? right : undefined;
      const shift = isLate(p) ? late : 0;
      const put = (i: number, value: number) => {
        if (inTotal) total[i] = (total[i] as number) + value;
        if (own) own[i] = (own[i] as number) + value;
      };
      for (let i = 0; i < force.length; i++) {
        let shown = (force[i] as number) * (1 + gain);
        if (rig !== undefined)
          shown += cosine * (cosines[i] as number) + sine * (sines[i] as number) + beyond * (over[i] as number);
        if (shift !== 0) shown += valueWithin(force, i - shift) - (force[i] as number);
        put(i, shown);
      }
      loadings.forEach(({ start, end }, at) => {
        for (let i = start; i < Math.min(end, force.length); i++) put(i, offsets[at] as number);
      });
    });
    addNoise(total, left, right, sources, random);
    const sum = (of: (draw: PlateDraw, p: number) => number) =>
      plates.reduce((all, draw, p) => (loads[p]?.inTotal ? all + of(draw, p) : all), 0);
    return {
      forces: { ...forces, total, ...(left ? { left } : {}), ...(right ? { right } : {}) },
      standing: sum((draw, p) => errorAt(draw, p, (loads[p] as Load).standing)),
      offsets: loadings.map((_, at) => sum(({ offsets }) => offsets[at] as number)),
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

/** White noise of each side and of plates without one, and with it of the sum; of the sum alone where there are no sides. */
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
  const without = noiseWithoutSide(noise);
  for (let i = 0; i < total.length; i++) {
    const [l, r] = [ofLeft * random.gaussian(), ofRight * random.gaussian()];
    left[i] = (left[i] as number) + l;
    right[i] = (right[i] as number) + r;
    total[i] = (total[i] as number) + l + r + (without > 0 ? without * random.gaussian() : 0);
  }
}
