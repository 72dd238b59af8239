import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactPull, forcesOfCurve, request } from '../../test/pulls.ts';
import { type Method, methodRegistry } from '../methods/index.ts';
import { type Measured, metricRegistry } from '../metrics/index.ts';
import { isometricEffortIn, protocolRegistry } from '../protocols/index.ts';
import { simulatePull } from '../simulation/index.ts';
import { analyse } from './analyse.ts';
import type { AnalysisRequest } from './request.ts';
import type { TrialResult } from './result.ts';

function only(given: AnalysisRequest): TrialResult {
  const { trials } = analyse(given);
  expect(trials).toHaveLength(1);
  return trials[0] as TrialResult;
}

const numberOf = (measured: Measured | undefined): number => {
  if (measured === undefined || !('value' in measured)) throw new Error(`no value: ${measured?.reason}`);
  return measured.value;
};

const methodOf = (id: string): Method => {
  const entry = methodRegistry.get(id);
  if (!entry) throw new Error(`no method ${id}`);
  return entry.method;
};

function simulated(seed: number) {
  const pull = simulatePull({}, seed);
  const total = pull.left.map((value, i) => value + (pull.right[i] as number));
  const plates = [
    { name: 'left', side: 'left', force: pull.left },
    { name: 'right', side: 'right', force: pull.right },
  ] as const;
  return { pull, forces: forcesOfCurve(total, pull.sampleRate, { left: pull.left, right: pull.right, plates }) };
}

describe('the exact curve of the check values', () => {
  // Methods reference, isometric 9.5 (calculated from 800 + 2000 (1 - exp(-t / 0.1)), 1000 Hz, t0 given at 3.000 s).
  const trial = only(
    request(forcesOfCurve(exactPull()), { onsetByHand: { index: 3000, by: 'M. Halvard', reason: 'known' } }),
  );

  it.each([
    ['force_at_50', 1586.938681],
    ['force_at_100', 2064.241118],
    ['force_at_250', 2635.830003],
    ['rfd_0_50', 15738.773611],
    ['rfd_0_200', 8646.647168],
    ['impulse_net_0_200', 227.065616],
    ['rfd_peak_20', 18126.924692],
  ])('%s', (id, want) => {
    expect(Math.abs(numberOf(trial.metrics[id]) - want)).toBeLessThan(1e-4);
  });

  // Same table: onset delay for thresholds over body weight, sampled: the next whole millisecond.
  it.each([
    ['fixed-newton-20', 2],
    ['fixed-newton-40', 3],
    ['fixed-newton-50', 3],
    ['fixed-newton-75', 4],
    ['percent-weight-10', 5],
    ['percent-weight-5', 3],
    ['percent-weight-2.5', 2],
    ['five-sd', 1],
  ])('onset by %s', (rule, delay) => {
    const onset = trial.onsets[rule];
    expect(onset?.ok && onset.value.index).toBe(3000 + delay);
  });

  it('has the events of the definitions', () => {
    const { events } = trial;
    expect(events?.quietLevel).toBe(800);
    expect(events?.halfLevel).toBeCloseTo(1800, 6);
    // 800 + 2000 (1 - exp(-t / 0.1)) = 1800 at t = 0.1 ln 2 = 69.3 ms.
    expect(events?.halfRise).toBe(3069);
    expect(events?.end).toBe(6001);
    expect(events?.peak.index).toBe(6000);
    expect(events?.baseline.ok && events.baseline.value).toMatchObject({ mean: 800, sd: 0 });
    expect(trial.bodyWeight).toEqual({ ok: true, value: { value: 800, unit: 'N', from: 'baseline' } });
  });

  it('keeps the automatic onset beside the one placed by hand', () => {
    expect(trial.onset.ok && trial.onset.value.byHand).toEqual({
      by: 'M. Halvard',
      reason: 'known',
      automatic: { ok: true, value: 2997 },
    });
  });

  it('shows the spread over the automatic rules', () => {
    const spread = trial.spread.force_at_100;
    expect(spread?.by['fixed-newton-20']).toBeCloseTo(800 + 2000 * (1 - Math.exp(-1.02)), 6);
    expect(spread?.max).toBeCloseTo(800 + 2000 * (1 - Math.exp(-1.05)), 6);
    expect(spread?.min).toBe(Math.min(...Object.values(spread?.by ?? {})));
    expect(Object.keys(trial.spread).every((id) => metricRegistry.get(id)?.dependsOnOnset)).toBe(true);
    expect(trial.spread.peak_force).toBeUndefined();
  });
});

describe('recordings without a plain pull', () => {
  const noEffort = (curve: Float64Array, more: Partial<AnalysisRequest> = {}) =>
    only(request(forcesOfCurve(curve), more));

  it('standing alone: no effort, every metric with the reason, nothing judged, repeat', () => {
    const trial = noEffort(Float64Array.from({ length: 5000 }, (_, i) => 800 + 5 * Math.sin(i / 900)));
    expect(trial.reason).toBe('no-effort');
    expect(trial.events).toBeUndefined();
    expect(new Set(Object.values(trial.metrics).map((one) => ('reason' in one ? one.reason : 'value')))).toEqual(
      new Set(['no-effort']),
    );
    expect(Object.values(trial.checks).every(({ status }) => status === 'not-judged')).toBe(true);
    expect(trial.verdict).toBe('repeat');
  });

  it('constant: the first window is the largest, and nothing stands before it', () => {
    expect(noEffort(new Float64Array(5000).fill(800)).reason).toBe('no-standing-window');
    const protocol = protocolRegistry.get('isometric-effort');
    const trial = noEffort(new Float64Array(5000).fill(2), protocol ? { protocol } : {});
    expect(trial.reason).toBe('no-standing-window');
    expect(trial.bodyWeight).toEqual({ ok: false, reason: 'needs-body-weight' });
  });

  it('empty or tiny: too short', () => {
    for (const count of [0, 1, 249])
      expect(noEffort(new Float64Array(count).fill(9)).reason).toBe('recording-too-short');
    const trial = noEffort(exactPull(), { span: { start: 9000, end: 9999 } });
    expect(trial.reason).toBe('recording-too-short');
  });

  it('unloaded plates: no standing window', () => {
    expect(noEffort(new Float64Array(5000)).reason).toBe('no-standing-window');
  });

  it('begun on the plateau: a held force is not standing, with a weighing or without', () => {
    // Holds 2000 N for two seconds, climbs to 2300 N, lets go: every window before the climb is as quiet as standing.
    const held = Float64Array.from({ length: 6500 }, (_, i) => {
      const climb = Math.min(Math.max((i - 2000) / 200, 0), 1);
      return i < 5500 ? 2000 + 300 * climb * climb * (3 - 2 * climb) + Math.sin(i) : 800 + Math.sin(i);
    });
    const without = noEffort(held);
    expect(without.bodyWeight).toMatchObject({ ok: true, value: { from: 'baseline' } });
    expect(without.onset.ok).toBe(true);
    expect(without.checks.rest_before?.status).toBe('warn');
    expect(without.verdict).toBe('look-again');
    const others = Object.entries(without.checks).filter(([id]) => id !== 'rest_before');
    expect(others.filter(([, { status }]) => status === 'warn' || status === 'fail')).toEqual([]);
    const weighed = noEffort(held, { bodyWeight: { value: 800, from: 'weighing' } });
    expect(weighed.checks.pretension?.status).toBe('fail');
    const protocol = protocolRegistry.get('isometric-effort');
    expect(noEffort(held, protocol ? { protocol } : {}).verdict).toBe('look-again');
  });

  it('a simulated pull cut off before or during its rise or on its plateau never counts', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const { pull, forces } = simulated(seed);
      for (const late of [-0.5, 0.05, 0.1, 0.2, 0.3, 0.5, 1, 2]) {
        const start = Math.round(pull.truth.onset.sample + late * pull.sampleRate);
        const cut = request(forces, { span: { start, end: forces.sampleCount } });
        const weighed = { ...cut, bodyWeight: { value: pull.truth.weighed, from: 'weighing' as const } };
        for (const given of [cut, weighed]) expect(only(given).verdict).not.toBe('counts');
      }
    }
  });

  it('begun too late: a given weight saves the peak, not the onset', () => {
    // 0.2 s of standing, then a pull that fades, so that its best window lies early.
    const late = exactPull()
      .subarray(2800)
      .map((value, i) => value - (value > 801 ? 0.2 * i : 0));
    expect(noEffort(late).reason).toBe('no-standing-window');
    const trial = noEffort(late, { bodyWeight: { value: 800, from: 'weighing' } });
    expect(trial.reason).toBeUndefined();
    expect(numberOf(trial.metrics.peak_force_net)).toBeGreaterThan(1700);
    expect(trial.onset).toEqual({ ok: false, reason: 'no-standing-window' });
    expect(trial.metrics.rfd_0_100).toMatchObject({ reason: 'no-standing-window' });
    expect(trial.verdict).not.toBe('counts');
    expect(trial.spread).toEqual({});
  });

  it('begun inside the rise, or standing with a given weight: no effort is made up', () => {
    const bodyWeight = { value: 800, from: 'given' } as const;
    expect(noEffort(exactPull().subarray(3200), { bodyWeight }).reason).toBe('no-effort');
    expect(noEffort(new Float64Array(900).fill(810), { bodyWeight }).reason).toBe('no-standing-window');
  });

  it('an unsteady stance: peak without onset', () => {
    const curve = exactPull();
    for (let i = 0; i < 3000; i++) curve[i] = 800 + 90 * Math.sin(i / 40);
    const trial = noEffort(curve);
    expect(trial.onset).toEqual({ ok: false, reason: 'no-quiet-window' });
    expect(trial.bodyWeight).toEqual({ ok: false, reason: 'no-body-weight' });
    expect(numberOf(trial.metrics.peak_force)).toBeCloseTo(2800, 6);
    expect(trial.verdict).not.toBe('counts');
  });

  it('cut off during the pull: the last sample is the end', () => {
    const trial = noEffort(exactPull().subarray(0, 3150));
    expect(trial.events?.end).toBe(3149);
    expect(trial.metrics.force_at_200).toMatchObject({ reason: 'interval-past-end' });
  });
});

describe('gaps', () => {
  it('keep windows and intervals away from samples that are not there', () => {
    const curve = exactPull(3, 3, 1000, 1);
    curve.fill(curve[2400] as number, 2401, 2450);
    const open = [{ start: 2401, end: 2450 }];
    const forces = forcesOfCurve(curve, 1000, { gaps: { filled: [], open } });
    const trial = only(request(forces, { method: methodOf('five-sd') }));
    const baseline = trial.events?.baseline;
    expect(baseline?.ok && (baseline.value.end <= 2401 || baseline.value.start >= 2450)).toBe(true);
    expect(trial.onset).toEqual({ ok: false, reason: 'gap-in-interval' });
    // The default rule looks at the last half second only, and needs no more; the gap is a failed check all the same.
    const local = only(request(forces));
    expect(local.onset.ok).toBe(true);
    expect(local.checks.gap?.status).toBe('fail');
    expect(local.verdict).toBe('repeat');
  });

  it('leave every number finite', () => {
    const curve = exactPull(3, 3, 1000, 1).fill(900, 3050, 3100);
    const open = [{ start: 3050, end: 3100 }];
    const trial = only(request(forcesOfCurve(curve, 1000, { gaps: { filled: [], open } })));
    for (const measured of Object.values(trial.metrics)) {
      if ('value' in measured) expect(Number.isFinite(measured.value)).toBe(true);
    }
    expect(trial.metrics.force_at_100).toMatchObject({ reason: 'gap-in-interval' });
  });
});

describe('tests without body weight', () => {
  // A brief effort on one channel; 2 N held before, as in a pinch (own numbers).
  const curve = Float64Array.from({ length: 1500 }, (_, i) => {
    const t = i / 500 - 1;
    return 2 + (t > 0 && t < 1 ? 9 * Math.sin(Math.PI * t) : 0) + 0.02 * Math.sin(i * 12.9898);
  });

  it('drop the limits in newtons and name the derived method', () => {
    const trial = only(request(forcesOfCurve(curve, 500), { protocol: isometricEffortIn('N', 0.4) }));
    expect(trial.reason).toBeUndefined();
    expect(numberOf(trial.metrics.peak_force)).toBeCloseTo(11, 1);
    expect(trial.metrics.peak_force_net).toMatchObject({ reason: 'needs-body-weight' });
    expect(trial.onsets['percent-weight-5']).toEqual({ ok: false, reason: 'needs-body-weight' });
    expect(trial.method.name).toBe('Sthene standard, with window.baseline 0.4');
    const floor = trial.onsets['five-sd-floor'];
    const plain = trial.onsets['five-sd'];
    expect(floor?.ok && plain?.ok && floor.value.index === plain.value.index).toBe(true);
  });

  it('carry another unit', () => {
    const forces = forcesOfCurve(curve, 500, { unit: 'N.m' });
    const trial = only(request(forces, { protocol: isometricEffortIn('N.m', 0.4) }));
    expect(trial.metrics.peak_force).toMatchObject({ unit: 'N.m' });
    expect(trial.onsets['fixed-newton-20']).toEqual({ ok: false, reason: 'not-defined' });
  });
});

describe('properties', () => {
  const seeds = fc.integer({ min: 1, max: 1e6 });

  it('shifting a recording in time shifts events and leaves values alone', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 1, max: 1500 }), (seed, cut) => {
        const { forces } = simulated(seed);
        const span = { start: cut, end: forces.sampleCount };
        const inPlace = only(request(forces, { span }));
        const moved = only(request(forcesOfCurve(forces.total.slice(cut), forces.sampleRate)));
        if (inPlace.onset.ok) expect(moved.onset.ok && moved.onset.value.index).toBe(inPlace.onset.value.index - cut);
        for (const [id, measured] of Object.entries(moved.metrics)) {
          if (!('value' in measured)) continue;
          // Interpolated positions have fewer digits after the point the later they lie.
          const there = numberOf(inPlace.metrics[id]);
          expect(Math.abs(measured.value - there)).toBeLessThanOrEqual(1e-11 * Math.abs(there));
        }
      }),
      { numRuns: 25 },
    );
  });

  it('doubling every force doubles forces and rates and keeps times', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { forces } = simulated(seed);
        // A rule without newtons in it.
        const method = methodOf('five-sd');
        const once = only(request(forces, { method }));
        const doubled = forces.total.map((value) => 2 * value);
        const twice = only(request(forcesOfCurve(doubled, forces.sampleRate), { method }));
        if (once.reason !== undefined) return;
        expect(twice.onset.ok && twice.onset.value.index).toBe(once.onset.ok && once.onset.value.index);
        for (const id of ['peak_force', 'peak_force_net', 'best_mean_200']) {
          expect(numberOf(twice.metrics[id])).toBeCloseTo(2 * numberOf(once.metrics[id]), 9);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('never gives a number that is not finite, whatever the samples', () => {
    const samples = fc.array(fc.double({ min: -5000, max: 5000, noNaN: true }), { minLength: 0, maxLength: 400 });
    fc.assert(
      fc.property(samples, fc.constantFrom(20, 50, 100), fc.boolean(), (values, rate, weighted) => {
        const protocol = protocolRegistry.get(weighted ? 'imtp' : 'isometric-effort');
        const given = request(
          forcesOfCurve(Float64Array.from(values), rate),
          protocol ? { protocol, efforts: 'all' } : {},
        );
        for (const trial of analyse(given).trials) {
          for (const measured of Object.values(trial.metrics)) {
            if ('value' in measured) expect(Number.isFinite(measured.value)).toBe(true);
          }
          for (const { value } of Object.values(trial.checks)) expect(Number.isNaN(value ?? 0)).toBe(false);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('method and request', () => {
  it('a filter that the rate cannot carry is said', () => {
    const given = request(forcesOfCurve(exactPull(3, 3, 100), 100));
    const method = { ...given.method, filter: { kind: 'butterworth-zero-lag', cutoff: 50 } } as const;
    const { trials, notices } = analyse({ ...given, method });
    expect(trials[0]?.reason).toBe('not-defined');
    expect(notices.map(({ code }) => code)).toEqual(['filter-not-usable']);
  });

  it('a filter moves the force before the onset and leaves the raw forces alone', () => {
    const forces = forcesOfCurve(exactPull(3, 3, 1000, 1));
    const before = forces.total.slice();
    const given = request(forces);
    const method = { ...given.method, filter: { kind: 'butterworth-zero-lag', cutoff: 10 } } as const;
    const filtered = only({ ...given, method });
    expect(forces.total).toEqual(before);
    expect(filtered.onset.ok && filtered.onset.value.index).toBeLessThan(3000);
  });

  it('unknown metrics, checks and rules are said and never silently left out', () => {
    const given = request(forcesOfCurve(exactPull()));
    const method = {
      ...given.method,
      onset: { rule: 'five-sd', version: 9 },
      metrics: { peak_force: 1, wingspan: 1, body_mass: 7 },
      checks: { mood: { version: 1, limits: {} } },
    };
    const { trials, notices } = analyse({ ...given, method });
    expect(notices.map(({ code }) => code)).toEqual([
      'metric-not-known',
      'metric-not-known',
      'check-not-known',
      'onset-rule-not-known',
    ]);
    expect(trials[0]?.metrics.wingspan).toEqual({ reason: 'not-defined' });
    expect(trials[0]?.onset).toEqual({ ok: false, reason: 'not-defined' });
  });
});
