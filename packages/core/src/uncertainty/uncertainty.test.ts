import { describe, expect, it } from 'vitest';
import { exactPull, forcesOfCurve, request } from '../../test/pulls.ts';
import { trialOf } from '../../test/trial-of.ts';
import { checkedRig, onlyTrial, pullContext, sourcesFor, withoutSource } from '../../test/uncertain-pulls.ts';
import type { TrialContext } from '../analysis/index.ts';
import { type MetricDefinition, metricRegistry } from '../metrics/index.ts';
import {
  type CheckedRig,
  type PartId,
  sampleNoise,
  secondMeans,
  sourcesOf,
  type Uncertainty,
  type UncertaintySources,
  uncertainties,
  uncertaintyOf,
  uncertaintyOfMean,
  weightFromMeans,
} from './index.ts';

const metric = (id: string) => metricRegistry.get(id) as MetricDefinition;

function have(trial: TrialContext, id: string, sources: UncertaintySources): Uncertainty {
  const found = uncertaintyOf(trial, metric(id), sources);
  if (!found.ok) throw new Error(`${id}: ${found.reason}`);
  return found.value;
}

const part = (found: Uncertainty, id: PartId) => found.parts.find((one) => one.id === id)?.standard;
const onlyGain: CheckedRig = { ...checkedRig, plateGain: 0, repeatability: 0, linearity: 0, growth: 0 };
const numberOf = (trial: TrialContext, id: string) => {
  const measured = metric(id).compute(trial);
  if (!('value' in measured)) throw new Error(measured.reason);
  return measured.value;
};

describe('a gain common to all forces', () => {
  const weighed = pullContext(1).trial;
  const given = pullContext(1, 'given').trial;
  const baseline = pullContext(1, 'baseline').trial;
  const gain = (trial: TrialContext, id: string) => part(have(trial, id, sourcesFor(trial, { rig: onlyGain })), 'gain');

  // By hand: d(ln y) = power of the force in y times d(ln gain).
  it('moves forces, rates and impulses by its share', () => {
    for (const id of [
      'peak_force',
      'peak_force_net',
      'force_at_100',
      'rfd_0_200',
      'impulse_0_200',
      'impulse_net_0_200',
    ])
      for (const trial of [weighed, baseline]) expect(gain(trial, id), id).toBeCloseTo(0.002 * numberOf(trial, id), 6);
    expect(gain(weighed, 'peak_force_allometric')).toBeCloseTo(
      (0.002 * numberOf(weighed, 'peak_force_allometric')) / 3,
      4,
    );
  });

  it('cancels per kilogram, in shares and in asymmetries where W comes from the same plates', () => {
    for (const id of [
      'peak_force_relative',
      'force_at_100_relative',
      'force_share_at_100',
      'asymmetry_at_peak',
      'rfd_0_200_relative',
    ])
      for (const trial of [weighed, baseline]) expect(gain(trial, id), id).toBe(0);
  });

  it('does not cancel against a W that was given', () => {
    expect(gain(given, 'peak_force_relative')).toBeCloseTo(0.002 * numberOf(given, 'peak_force_relative'), 9);
    expect(gain(given, 'peak_force_net')).toBeCloseTo(0.002 * numberOf(given, 'peak_force'), 6);
  });
});

describe('other errors of a rig', () => {
  const { trial } = pullContext(2);
  const rig = (more: Partial<CheckedRig>): UncertaintySources =>
    sourcesFor(trial, { rig: { ...onlyGain, gain: 0, ...more } });

  // Methods reference, isometric 7.6: plates whose gains differ by 1 % give a false asymmetry of 0.5 % (as share of the sum, sides equal).
  it('a difference of the gains of two plates is a false asymmetry', () => {
    const force = Array.from({ length: 4000 }, (_, i) => 400 + 600 * Math.min(1, Math.max(0, (i - 2000) / 200)));
    const even = trialOf({ left: force, right: force, onset: 2000, halfRise: 2100, weight: 800 });
    const sources = { rig: { ...onlyGain, plateGain: 0.01 / Math.SQRT2 } };
    expect(part(have(even, 'asymmetry_at_peak', sources), 'gain')).toBe(0);
    expect(part(have(even, 'asymmetry_at_peak', sources), 'plate-gain')).toBeCloseTo(0.5, 3);
  });

  it('an offset of a loading cancels in rates, and in net force where W was read from the same loading', () => {
    const sources = rig({ repeatability: 2 });
    expect(part(have(trial, 'rfd_0_100', sources), 'repeatability')).toBe(0);
    expect(part(have(trial, 'peak_force', sources), 'repeatability')).toBeCloseTo(2 * Math.SQRT2, 9);
    // Two plates, two loadings.
    expect(part(have(trial, 'peak_force_net', sources), 'repeatability')).toBeCloseTo(4, 9);
    const { trial: same } = pullContext(2, 'baseline');
    expect(part(have(same, 'peak_force_net', sources), 'repeatability')).toBeCloseTo(0, 9);
  });

  it('a bend has its size at every force, and less in the difference of two forces', () => {
    const sources = rig({ linearity: 2 });
    const ofForce = part(have(trial, 'peak_force', sources), 'linearity');
    expect(ofForce).toBeCloseTo(2 * Math.SQRT2, 9);
    const ofNet = part(have(trial, 'peak_force_net', sources), 'linearity') ?? Number.NaN;
    expect(ofNet).toBeGreaterThan(0.5);
    expect(ofNet).toBeLessThan(2 * 2);
  });

  it('what is beyond the largest checked force grows with what is beyond', () => {
    const peak = numberOf(trial, 'left_force_at_peak');
    const sources = rig({ growth: 0.01, largestForce: peak - 200 });
    expect(part(have(trial, 'left_force_at_peak', sources), 'beyond-check')).toBeCloseTo(2, 9);
    const within = rig({ growth: 0.01, largestForce: 5000 });
    expect(part(have(trial, 'left_force_at_peak', within), 'beyond-check')).toBeUndefined();
  });

  it('says nothing of forces that are not in newtons', () => {
    const torque = trialOf({ total: exactPull(), unit: 'N.m', onset: 3000, halfRise: 3069, end: 6000 });
    const found = have(torque, 'force_at_100', { rig: checkedRig, noise: { total: 1 } });
    expect(found.parts.map(({ id }) => id)).toEqual(['noise']);
    expect(found.unknown.map(({ id }) => id)).toContain('gain');
    expect(found.unit).toBe('N.m');
  });
});

describe('body weight and plates in step', () => {
  const { trial } = pullContext(3);

  it('the weight moves net force by itself and net impulse over its time', () => {
    const sources = sourcesFor(trial);
    expect(part(have(trial, 'peak_force_net', sources), 'body-weight')).toBeCloseTo(2.5, 9);
    expect(part(have(trial, 'impulse_net_0_200', sources), 'body-weight')).toBeCloseTo(0.5, 9);
    expect(part(have(trial, 'peak_force', sources), 'body-weight')).toBe(0);
    const relative = numberOf(trial, 'peak_force_relative');
    const weight = trial.bodyWeight.ok ? trial.bodyWeight.value.value : Number.NaN;
    expect(part(have(trial, 'peak_force_relative', sources), 'body-weight')).toBeCloseTo((2.5 / weight) * relative, 3);
  });

  // By hand: offset times the local slope of the plate that is late, here 5000 N/s on the right of two equal ramps.
  it('a plate that is late by 1 ms changes a force by its slope, and leans', () => {
    const force = Array.from({ length: 4000 }, (_, i) => 400 + 5 * Math.min(200, Math.max(0, i - 2000)));
    const even = trialOf({ left: force, right: force, onset: 2000, halfRise: 2100, weight: 800 });
    const sources = { synchronisation: 0.001, noise: { total: 1, left: 0.7, right: 0.7 } };
    expect(part(have(even, 'force_at_100', sources), 'synchronisation')).toBeCloseTo(5, 9);
    const [left, right] = [900, 895];
    expect(part(have(even, 'asymmetry_impulse_0_200', sources), 'synchronisation')).toBeGreaterThan(0.1);
    expect(part(have(even, 'right_force_at_100', sources), 'synchronisation')).toBeCloseTo(left - right, 9);
    expect(part(have(even, 'left_force_at_100', sources), 'synchronisation')).toBe(0);
  });

  it('nothing is late on one clock', () => {
    const found = have(trial, 'force_at_100', sourcesFor(trial, { synchronisation: 0 }));
    expect(part(found, 'synchronisation')).toBeUndefined();
    expect(found.unknown).toEqual([]);
  });
});

describe('what is not known', () => {
  const { trial } = pullContext(4);
  const unknown = (id: string, sources: UncertaintySources) => have(trial, id, sources).unknown.map((one) => one.id);

  it('is named where it may matter, and not taken for zero', () => {
    const sources = withoutSource(sourcesFor(trial), 'rig');
    expect(unknown('peak_force', sources)).toEqual(['gain', 'plate-gain', 'repeatability', 'linearity']);
    expect(unknown('peak_force_relative', sources)).not.toContain('gain');
    expect(unknown('asymmetry_at_peak', sources)).not.toContain('gain');
    expect(unknown('asymmetry_at_peak', sources)).toContain('plate-gain');
    expect(unknown('rfd_0_100', sources)).not.toContain('repeatability');
    const found = have(trial, 'peak_force', sources);
    expect(found.parts.map(({ id }) => id)).toEqual(['body-weight', 'noise', 'synchronisation']);
  });

  it('a check that does not tell the plates apart leaves their difference open', () => {
    const { plateGain: _, ...rig } = checkedRig;
    expect(unknown('asymmetry_at_peak', sourcesFor(trial, { rig }))).toEqual(['plate-gain']);
  });

  it('a W that was given has an uncertainty nobody told', () => {
    const { trial: given } = pullContext(4, 'given');
    const found = have(given, 'peak_force_net', sourcesFor(given));
    expect(found.unknown.map(({ id }) => id)).toEqual(['body-weight']);
  });

  it('everything: the reason', () => {
    expect(uncertaintyOf(trial, metric('body_weight'), {})).toEqual({ ok: false, reason: 'sources-not-known' });
  });

  it('no value: the value’s own reason', () => {
    const single = onlyTrial(request(forcesOfCurve(exactPull(3, 3, 1000, 1))));
    expect(uncertaintyOf(single, metric('asymmetry_at_peak'), {})).toEqual({ ok: false, reason: 'one-side-only' });
  });
});

describe('all parts together', () => {
  const { trial } = pullContext(5);
  const found = uncertainties(trial, metricRegistry.all, sourcesFor(trial));

  it('every value of a whole trial has an uncertainty with k = 2', () => {
    expect(Object.keys(found)).toEqual(metricRegistry.all.map(({ id }) => id));
    for (const { id, compute } of metricRegistry.all) {
      const one = found[id];
      if (!('value' in compute(trial))) continue;
      if (!one?.ok) throw new Error(`${id}: ${one?.reason}`);
      const { standard, expanded, coverage, parts } = one.value;
      expect(standard ** 2, id).toBeCloseTo(
        parts.reduce((sum, { standard: size }) => sum + size ** 2, 0),
        6,
      );
      expect(expanded).toBe(coverage * standard);
      expect(standard).toBeGreaterThan(0);
    }
  });

  it('onset timing stands beside it and is not in it', () => {
    const one = found.force_at_100;
    if (!one?.ok) throw new Error('no uncertainty');
    const { three, five } = { three: trial.onsets()['three-sd'], five: trial.onsets()['five-sd'] };
    if (!three?.ok || !five?.ok) throw new Error('no onsets');
    const at = (index: number) => trial.forces.total[index + 100] as number;
    const half = Math.abs(at(five.value.index) - at(three.value.index)) / 2;
    expect(one.value.onsetTiming?.standard).toBeCloseTo(half, 9);
    expect(found.peak_force?.ok && found.peak_force.value.onsetTiming).toBeUndefined();
  });

  it('of a time is its grid, with the instant of the peak left open', () => {
    const one = found.time_to_peak;
    if (!one?.ok) throw new Error('no uncertainty');
    expect(part(one.value, 'sampling')).toBeCloseTo(0.001 / Math.sqrt(6), 12);
    expect(one.value.unknown.map(({ id }) => id)).toEqual(['peak-instant']);
  });

  it('of the mean of three efforts: noise falls, the instrument does not', () => {
    const one = found.peak_force;
    if (!one?.ok) throw new Error('no uncertainty');
    const mean = uncertaintyOfMean([one.value, one.value, one.value]) as Uncertainty;
    expect(part(mean, 'gain')).toBeCloseTo(part(one.value, 'gain') as number, 9);
    expect(part(mean, 'noise')).toBeCloseTo((part(one.value, 'noise') as number) / Math.sqrt(3), 9);
    expect(uncertaintyOfMean([])).toBeUndefined();
  });
});

describe('what the curve itself tells', () => {
  it('means of whole seconds and their SD', () => {
    const force = Float64Array.from({ length: 3500 }, (_, i) => 800 + Math.floor(i / 1000));
    expect(secondMeans(force, 1000)).toEqual([800, 801, 802]);
    expect(weightFromMeans([800, 801, 802], 'weighing')).toEqual({ standard: 1, seconds: 3, of: 'weighing' });
    expect(weightFromMeans([800], 'weighing')).toBeUndefined();
  });

  it('noise of the sides adds up to S, whatever goes from foot to foot', () => {
    const { trial } = pullContext(6, 'weighing', { plateNoise: 2 });
    const noise = sampleNoise(trial);
    const S = trial.events.baseline.ok ? trial.events.baseline.value.sd : Number.NaN;
    expect(noise?.total).toBe(S);
    expect(Math.hypot(noise?.left ?? 0, noise?.right ?? 0)).toBeCloseTo(S, 9);
    expect((noise?.left ?? 0) / (noise?.right ?? 1)).toBeCloseTo(1, 0);
  });

  it('the weighing first, else the standing before the pull, and nothing for a given weight', () => {
    const { trial } = pullContext(6);
    expect(sourcesOf(trial, { weighing: [800, 802] }).weight).toMatchObject({ of: 'weighing', seconds: 2 });
    expect(sourcesOf(trial, {}).weight).toMatchObject({ of: 'standing-before' });
    const { trial: given } = pullContext(6, 'given');
    expect(sourcesOf(given, { weighing: [800, 802] }).weight).toBeUndefined();
  });
});
