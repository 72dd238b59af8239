import { describe, expect, it } from 'vitest';
import { trialOf } from '../../../test/trial-of.ts';
import { metricRegistry } from '../../metrics/index.ts';
import type { MetricDefinition } from '../../metrics/metric.ts';
import { dependentSamples, noiseOf, noiseRules } from './index.ts';

const noise = { total: 3, left: 1.8, right: 2.4 };

/** A rise of 1000 N in 200 ms, held; the left carries 40 %. */
const trial = trialOf({
  left: curve(0.4),
  right: curve(0.6),
  onset: 2000,
  halfRise: 2100,
  weight: 800,
  baseline: { start: 500, end: 1500 },
});

function curve(share: number): number[] {
  return Array.from({ length: 5000 }, (_, i) => share * (800 + 1000 * Math.min(1, Math.max(0, (i - 2000) / 200))));
}

function of(id: string): number {
  const metric = metricRegistry.get(id) as MetricDefinition;
  const value = metric.compute(trial);
  const rule = noiseRules()[id];
  if (!('value' in value) || rule?.kind !== 'weights') throw new Error(`no noise for ${id}`);
  return noiseOf(rule.of(trial, value), noise, 1) ?? Number.NaN;
}

describe('noise of single samples', () => {
  it('has a rule or a reason for every metric, and for nothing else', () => {
    expect(Object.keys(noiseRules()).sort()).toEqual(metricRegistry.all.map(({ id }) => id).sort());
    for (const rule of Object.values(noiseRules()))
      expect((rule.kind === 'none' ? rule.why : rule.words).length).toBeGreaterThan(5);
  });

  it('gives a finite number for every rule with weights', () => {
    for (const { id, compute } of metricRegistry.all) {
      if (noiseRules()[id]?.kind !== 'weights' || !('value' in compute(trial))) continue;
      expect(of(id), id).toBeGreaterThan(0);
    }
  });

  // Methods reference, isometric 9.12: 3 N on each of two samples 0.1 s apart, 42.426407 N/s; 7.5: S 2 N, 141 N/s over 20 ms.
  it('of a rate is S sqrt(2) over the time', () => {
    expect(of('rfd_0_100')).toBeCloseTo(42.426407, 6);
    expect(of('rfd_peak_20')).toBeCloseTo((3 * Math.SQRT2) / 0.02, 9);
    expect((2 * of('rfd_peak_20')) / 3).toBeCloseTo(141.42, 2);
  });

  // By hand from the formulas.
  it('of means, impulses and shares', () => {
    expect(of('peak_force')).toBe(3);
    expect(of('best_mean_200')).toBeCloseTo(3 / Math.sqrt(200), 12);
    expect(of('impulse_net_0_200')).toBeCloseTo(3 * 0.001 * Math.sqrt(200), 12);
    expect(of('left_impulse_0_100')).toBeCloseTo(1.8 * 0.001 * Math.sqrt(100), 12);
    expect(of('peak_force_relative')).toBeCloseTo((3 * 9.80665) / 800, 12);
    const [left, right] = [0.4 * 1800, 0.6 * 1800];
    const both = (200 / 1800 ** 2) * Math.hypot(right * 1.8, left * 2.4);
    expect(of('asymmetry_at_peak')).toBeCloseTo(both, 12);
    expect(of('standing_share_right')).toBeCloseTo(
      ((100 / 800) * Math.hypot(0.6 * 1.8, 0.4 * 2.4)) / Math.sqrt(1000),
      12,
    );
  });

  it('falls more slowly behind a filter, whose samples move together', () => {
    const filter = { kind: 'butterworth-zero-lag', cutoff: 50 } as const;
    const filtered = { ...trial, method: { ...trial.method, filter } };
    expect(dependentSamples(trial)).toBe(1);
    expect(dependentSamples(filtered)).toBe(10);
    expect(noiseOf([{ of: 'total', weight: 1, samples: 200 }], noise, 10)).toBeCloseTo(3 / Math.sqrt(20), 12);
    expect(noiseOf([{ of: 'total', weight: 1, samples: 1 }], noise, 10)).toBe(3);
  });

  it('of a side that is not known is not known', () => {
    expect(noiseOf([{ of: 'left', weight: 1, samples: 1 }], { total: 3 }, 1)).toBeUndefined();
  });
});
