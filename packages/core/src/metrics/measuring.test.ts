import { describe, expect, it } from 'vitest';
import { exponentialTrial } from '../../test/exact-curves.ts';
import { measure, reasonOf } from '../../test/read.ts';
import { metricRegistry } from './index.ts';

const timed = metricRegistry.all.filter((metric) => metric.dependsOnOnset);
const curve = exponentialTrial().forces.total;
const half = Float64Array.from(curve, (force) => force / 2);
const twoSided = { left: half, right: half } as const;

describe('the order in which reasons win', () => {
  it('gives the onset its own reason before anything else', () => {
    const trial = exponentialTrial(400, { onset: 'threshold-too-high', weight: 'needs-body-weight', end: 900 });
    for (const metric of timed) expect(reasonOf(metric.id, trial), metric.id).toBe('threshold-too-high');
  });

  it('then the body weight', () => {
    const trial = exponentialTrial(1000, { weight: 'needs-body-weight', end: 2080 });
    expect(reasonOf('force_net_at_300', trial)).toBe('needs-body-weight');
    expect(reasonOf('force_at_300', trial)).toBe('interval-past-end');
  });

  it('then the sides, the end and the gap', () => {
    const gaps = { open: [{ start: 2050, end: 2060 }] };
    expect(reasonOf('left_force_at_300', exponentialTrial(1000, { end: 2080, gaps }))).toBe('one-side-only');
    expect(reasonOf('left_impulse_0_300', exponentialTrial(1000, { ...twoSided, end: 2080, gaps }))).toBe(
      'interval-past-end',
    );
    expect(reasonOf('left_impulse_0_300', exponentialTrial(1000, { ...twoSided, gaps }))).toBe('gap-in-interval');
  });
});

describe('every metric', () => {
  it('stands on a clean trial with two sides, and shows the interval or terms it used', () => {
    // Falls after the peak, so that a loss can be measured; 5 kHz, so that no window is too short.
    const rate = 5000;
    const total = Float64Array.from(
      exponentialTrial(rate).forces.total,
      (f, i) => f - Math.max(0, i - 4 * rate) * 0.01,
    );
    const side = Float64Array.from(total, (force) => force / 2);
    const trial = exponentialTrial(rate, { total, left: side, right: side });
    for (const metric of metricRegistry.all) {
      const measured = metric.compute(trial);
      expect('reason' in measured ? `${metric.id}: ${measured.reason}` : '').toBe('');
      if ('reason' in measured) continue;
      expect(measured.unit).toBe(metric.unit);
      expect(measured.evidence.interval ?? measured.evidence.terms, metric.id).toBeDefined();
    }
  });

  it('depends on the onset exactly when it says so', () => {
    const trial = exponentialTrial(1000, { ...twoSided, onset: 'onset-not-found' });
    for (const metric of metricRegistry.all) {
      const reason = reasonOf(metric.id, trial);
      if (metric.dependsOnOnset) expect(reason, metric.id).toBe('onset-not-found');
      else expect(reason, metric.id).not.toBe('onset-not-found');
    }
  });

  it('names a unit of force that is not newtons', () => {
    const trial = exponentialTrial(1000, { unit: 'N.m', weight: 'needs-body-weight' });
    expect(measure('peak_force', trial)).toMatchObject({ unit: 'N.m' });
    expect(measure('rfd_0_100', trial)).toMatchObject({ unit: 'N.m/s' });
    expect(measure('impulse_0_100', trial)).toMatchObject({ unit: 'N.m.s' });
    expect(measure('time_to_peak', trial)).toMatchObject({ unit: 's' });
    for (const id of ['body_weight', 'body_mass', 'peak_force_net', 'peak_force_relative', 'peak_force_allometric']) {
      expect(reasonOf(id, trial), id).toBe('needs-body-weight');
    }
  });

  it('has an id once, and the ids of the definitions', () => {
    const times = [50, 90, 100, 150, 200, 250, 300];
    const expected = [
      'body_weight body_mass peak_force peak_force_net peak_force_relative peak_force_net_relative',
      'peak_force_allometric best_mean_200 best_mean_1000 time_to_peak force_at_onset rfd_average rfd_20_80',
      'rfd_0_200_relative force_loss left_force_at_peak right_force_at_peak left_peak_force right_peak_force',
      'asymmetry_at_peak asymmetry_net_at_peak asymmetry_mean_force standing_share_right',
      'rfd_50_100 rfd_100_150 rfd_100_200 rfd_150_200 rfd_200_250',
      ...times.map((t) => `force_at_${t} force_net_at_${t} force_at_${t}_relative force_share_at_${t} rfd_0_${t}`),
      ...times.map((t) => `left_force_at_${t} right_force_at_${t}`),
      ...[2, 5, 10, 20, 50].map((v) => `rfd_peak_${v}`),
      ...[50, 100, 150, 200, 250, 300].map(
        (t) => `impulse_0_${t} impulse_net_0_${t} left_impulse_0_${t} right_impulse_0_${t}`,
      ),
      ...[100, 200, 250].map((t) => `asymmetry_impulse_0_${t}`),
    ].flatMap((line) => line.split(' '));
    expect(metricRegistry.all.map((metric) => metric.id).sort()).toEqual(expected.sort());
  });
});
