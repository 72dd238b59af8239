import { describe, expect, it } from 'vitest';
import { checkedRig, onlyTrial, platesOf, pullContext, sourcesFor } from '../../test/uncertain-pulls.ts';
import type { TrialContext } from '../analysis/index.ts';
import { analyse } from '../analysis/index.ts';
import { type MetricDefinition, metricRegistry } from '../metrics/index.ts';
import { seededRandom } from '../simulation/index.ts';
import { drawMetrics, type UncertaintySources, uncertainties } from './index.ts';

/** One metric of each family at least; those whose instants are drawn from noise stand in a test of their own. */
const ids = [
  'body_weight',
  'body_mass',
  'peak_force_relative',
  'best_mean_200',
  'force_at_onset',
  'force_at_100',
  'force_net_at_100',
  'force_at_100_relative',
  'force_share_at_100',
  'rfd_0_100',
  'rfd_100_200',
  'rfd_20_80',
  'impulse_0_200',
  'impulse_net_0_200',
  'left_force_at_100',
  'right_impulse_0_200',
  'asymmetry_mean_force',
  'asymmetry_impulse_0_200',
  'standing_share_right',
];
const metrics = ids.map((id) => metricRegistry.get(id) as MetricDefinition);
const draws = 5000;

/**
 * The SD of 5,000 draws is itself known to 1 % (1 / sqrt(2 n)); 4 % leaves that four times over for the many values looked at. The same
 * errors must come out of sums of squares of half differences and of drawing everything at once.
 */
const tolerance = 0.04;

/** Their formula holds the peak, whose noise is at most S: draws may scatter less than what is propagated, never more. */
const holdPeak = new Set(['rfd_20_80', 'force_share_at_100', 'peak_force_relative', 'best_mean_200']);
const leastWithPeak = 0.75;

function expectAgreement(ratios: Readonly<Record<string, number>>): void {
  for (const [id, ratio] of Object.entries(ratios)) {
    expect(ratio, `${id}: draws over propagated`).toBeLessThan(1 + tolerance);
    expect(ratio, `${id}: draws over propagated`).toBeGreaterThan(holdPeak.has(id) ? leastWithPeak : 1 - tolerance);
  }
}

/** Draws over propagated, of every value of which something is known; of the others nothing is drawn either. */
function compare(trial: TrialContext, sources: UncertaintySources, seed: number): Record<string, number> {
  const propagated = uncertainties(trial, metrics, sources);
  const drawn = drawMetrics(trial, metrics, sources, draws, seededRandom(seed, 0));
  return Object.fromEntries(
    ids.flatMap((id) => {
      const one = propagated[id];
      if (one?.ok) return [[id, (drawn[id]?.standard ?? Number.NaN) / one.value.standard]];
      expect(drawn[id]?.standard, id).toBe(0);
      return [];
    }),
  );
}

// JCGM 101:2008: propagation of distributions by draws, seeded; every source normal.
describe('propagation agrees with draws of everything at once', () => {
  it.each([
    ['a quick pull, weighed', 11, 'weighing'],
    ['a pull whose W is the baseline', 12, 'baseline'],
    ['a pull whose W was given: nothing cancels', 13, 'given'],
  ] as const)('%s', (_, seed, from) => {
    const { trial } = pullContext(seed, from, { sampleRate: 500 });
    const sources = sourcesFor(trial, { noise: { total: Math.hypot(0.8, 0.6), left: 0.8, right: 0.6 } });
    expectAgreement(compare(trial, sources, seed));
  });

  it('noise alone, by the rules of each family', () => {
    const { trial } = pullContext(14, 'weighing', { sampleRate: 500 });
    const noise = { total: 1.5, left: 0.9, right: 1.2 };
    const sources: UncertaintySources = {
      noise,
      synchronisation: 0,
      rig: { ...checkedRig, gain: 0, plateGain: 0, repeatability: 0, linearity: 0, growth: 0 },
      weight: { standard: 0, seconds: 3, of: 'weighing' },
    };
    const { peak_force_relative: ofPeak, best_mean_200: ofBest, ...ratios } = compare(trial, sources, 14);
    expectAgreement(ratios);
    // Nothing but the noise of the highest sample, or of the luckiest window: S is a bound only.
    for (const ratio of [ofPeak, ofBest]) expect(ratio).toBeLessThan(1);
  });

  it('a peak scatters less than one sample and lies high: S is its bound', () => {
    const { trial } = pullContext(15, 'weighing', { sampleRate: 500 });
    const noise = { total: 2, left: Math.SQRT2, right: Math.SQRT2 };
    const peak = metricRegistry.get('peak_force') as MetricDefinition;
    const drawn = drawMetrics(trial, [peak], { noise }, 2000, seededRandom(15, 0)).peak_force;
    expect(drawn?.standard).toBeLessThan(noise.total);
    expect(drawn?.standard).toBeGreaterThan(0.2 * noise.total);
    const there = trial.events.peak.force;
    // Blom's approximation: the largest of 10 to 1000 samples exceeds their level by 1.5 to 3.2 S (methods reference, 7.3).
    expect((drawn?.mean ?? 0) - there).toBeGreaterThan(0);
    expect((drawn?.mean ?? 0) - there).toBeLessThan(3.3 * noise.total);
  });
});

describe('draws', () => {
  const { trial, request } = pullContext(16, 'weighing', { sampleRate: 500 });
  const sources = sourcesFor(trial);

  it('are the same for the same seed', () => {
    const of = (seed: number) => drawMetrics(trial, metrics, sources, 20, seededRandom(seed, 0));
    expect(of(1)).toEqual(of(1));
    expect(of(1)).not.toEqual(of(2));
  });

  it('agree with the whole analysis of made-up recordings', () => {
    // Nothing of the propagation or of its draws: new recordings with a gain, an offset of each plate and white noise, analysed from
    // the samples on with the onset held.
    const held = trial.onset.ok ? trial.onset.value.index : 0;
    const random = seededRandom(17, 0);
    const { left, right, sampleRate } = request.forces;
    const weight = request.bodyWeight?.value ?? Number.NaN;
    const noise = 1.2;
    const found: number[][] = [];
    for (let draw = 0; draw < 1500; draw++) {
      const gain = 1 + 0.002 * random.gaussian();
      const [l, r] = [left, right].map((force) => {
        const own = gain * (1 + 0.003 * random.gaussian());
        const offset = 1.5 * random.gaussian();
        return (force as Float64Array).map((value) => own * value + offset + noise * random.gaussian());
      }) as [Float64Array, Float64Array];
      const given = onlyTrial({
        ...request,
        forces: platesOf(l, r, sampleRate),
        bodyWeight: { value: weight + 2.5 * random.gaussian(), from: 'given' },
        onsetByHand: { index: held, by: 'M. Halvard', reason: 'held' },
      });
      found.push(wanted.map((id) => numberOf(given, id)));
    }
    const { rig: _, ...rest } = sources;
    const same: UncertaintySources = {
      ...rest,
      synchronisation: 0,
      noise: { total: noise * Math.SQRT2, left: noise, right: noise },
      rig: { ...checkedRig, linearity: 0, growth: 0 },
    };
    // W was given there, with its own spread and without the plates' errors; here it is known as little.
    const unweighed = pullContext(16, 'given', { sampleRate: 500 }).trial;
    const propagated = uncertainties(
      unweighed,
      wanted.map((id) => metricRegistry.get(id) as MetricDefinition),
      same,
    );
    wanted.forEach((id, at) => {
      const values = found.map((one) => one[at] as number);
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
      const one = propagated[id];
      if (!one?.ok) throw new Error(id);
      // 1,500 draws: 1.8 % of the SD; times four.
      expect(Math.abs(sd / one.value.standard - 1), `${id}: ${sd / one.value.standard}`).toBeLessThan(0.075);
    });
  });
});

/** Values that need no W, whose spread the given one does not tell. */
const wanted = ['force_at_100', 'rfd_0_200', 'impulse_0_100', 'asymmetry_impulse_0_200', 'left_force_at_150'];

function numberOf(trial: TrialContext, id: string): number {
  const measured = (metricRegistry.get(id) as MetricDefinition).compute(trial);
  return 'value' in measured ? measured.value : Number.NaN;
}

it('are of the very values the analysis gives', () => {
  const { trial, request } = pullContext(18);
  const [whole] = analyse(request).trials;
  for (const { id, compute } of metricRegistry.all) {
    const [here, there] = [compute(trial), whole?.metrics[id]];
    if (there !== undefined && 'value' in here && 'value' in there) expect(here.value, id).toBe(there.value);
  }
});
