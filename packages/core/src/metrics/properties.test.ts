import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type TrialOptions, trialOf } from '../../test/trial-of.ts';
import { metricRegistry } from './index.ts';

/** A noisy two-sided pull whose shape, rate and noise are chosen at random from a seed. */
const pull = fc
  .record({
    sampleRate: fc.constantFrom(500, 600, 1000, 1024, 2000),
    constant: fc.double({ min: 0.08, max: 0.3, noNaN: true }),
    share: fc.double({ min: 0.4, max: 0.6, noNaN: true }),
    seed: fc.integer({ min: 1, max: 1e6 }),
  })
  .map(({ sampleRate, constant, share, seed }) => {
    let state = seed;
    const noise = () => {
      state = (state * 48271) % 2147483647;
      return state / 2147483647 - 0.5;
    };
    const onset = 2 * sampleRate;
    const total = Array.from({ length: 5 * sampleRate }, (_, i) => {
      const t = (i - onset) / sampleRate;
      return 800 + (t > 0 ? 1800 * (1 - Math.exp(-t / constant)) * (1 - 0.02 * t) : 0) + noise();
    });
    const left = total.map((force) => force * share + noise());
    const right = total.map((force, i) => force - (left[i] ?? 0));
    const halfRise = total.findIndex((force) => force > 1700) - 1;
    return { sampleRate, left, right, onset, halfRise, weight: 800, baseline: { start: 0, end: sampleRate } };
  });

const valuesOf = (options: TrialOptions): Record<string, number> => {
  const trial = trialOf(options);
  const values: Record<string, number> = {};
  for (const metric of metricRegistry.all) {
    const measured = metric.compute(trial);
    if (!('reason' in measured)) values[metric.id] = measured.value;
  }
  return values;
};

const close = (a: number | undefined, b: number, label: string): void => {
  expect(Math.abs((a ?? Number.NaN) - b), label).toBeLessThanOrEqual(1e-8 * Math.max(1, Math.abs(b)));
};

describe('metrics', () => {
  it('scale with the force', () => {
    fc.assert(
      fc.property(pull, fc.constantFrom(0.5, 2, 3), (options, factor) => {
        const plain = valuesOf(options);
        const scaled = valuesOf({
          ...options,
          left: options.left.map((f) => f * factor),
          right: options.right.map((f) => f * factor),
          weight: options.weight * factor,
        });
        expect(Object.keys(scaled)).toEqual(Object.keys(plain));
        for (const { id, unit } of metricRegistry.all) {
          const value = plain[id];
          if (value === undefined) continue;
          const power =
            unit === 'N' || unit === 'N/s' || unit === 'N.s' || unit === 'kg' ? 1 : unit === '1' ? 1 / 3 : 0;
          close(scaled[id], value * factor ** power, id);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('mirror when the sides are swapped', () => {
    fc.assert(
      fc.property(pull, (options) => {
        const plain = valuesOf(options);
        const swapped = valuesOf({ ...options, left: options.right, right: options.left });
        for (const [id, value] of Object.entries(plain)) {
          if (id.startsWith('asymmetry')) close(swapped[id], -value, id);
          else if (id.startsWith('left_')) close(swapped[id.replace('left_', 'right_')], value, id);
          else if (id === 'standing_share_right') close(swapped[id], 100 - value, id);
          else if (!id.startsWith('right_')) close(swapped[id], value, id);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('do not change when everything happens later', () => {
    fc.assert(
      fc.property(pull, fc.integer({ min: 1, max: 500 }), (options, delay) => {
        const plain = valuesOf(options);
        const shift = (side: number[]) => [...Array.from({ length: delay }, () => 400), ...side];
        const later = valuesOf({
          ...options,
          left: shift(options.left),
          right: shift(options.right),
          onset: options.onset + delay,
          halfRise: options.halfRise + delay,
          baseline: { start: options.baseline.start + delay, end: options.baseline.end + delay },
        });
        expect(Object.keys(later)).toEqual(Object.keys(plain));
        for (const [id, value] of Object.entries(plain)) close(later[id], value, id);
      }),
      { numRuns: 20 },
    );
  });

  it('give impulses and forces of the sides that add up to the total', () => {
    fc.assert(
      fc.property(pull, (options) => {
        const values = valuesOf(options);
        for (const t of [50, 100, 150, 200, 250, 300]) {
          for (const kind of [`force_at_${t}`, `impulse_0_${t}`]) {
            close(
              (values[`left_${kind}`] ?? Number.NaN) + (values[`right_${kind}`] ?? Number.NaN),
              values[kind] ?? 0,
              kind,
            );
          }
        }
      }),
      { numRuns: 20 },
    );
  });

  it('that share work between the onsets of a trial give what they give alone', () => {
    fc.assert(
      fc.property(
        pull,
        fc.array(fc.integer({ min: -300, max: 900 }), { minLength: 2, maxLength: 6 }),
        (options, moves) => {
          const memo = new Map<string, unknown>();
          for (const move of [0, ...moves]) {
            const alone = trialOf({ ...options, onset: options.onset + move });
            for (const id of ['rfd_peak_10', 'rfd_peak_20', 'rfd_peak_50', 'asymmetry_mean_force']) {
              const metric = metricRegistry.get(id);
              const [one, other] = [metric?.compute(alone), metric?.compute({ ...alone, memo })];
              if (!one || !other || !('value' in one) || !('value' in other)) expect(other).toEqual(one);
              else {
                // A percentage of a sum: a small difference of large means.
                expect(Math.abs(one.value - other.value)).toBeLessThanOrEqual(
                  1e-12 * Math.max(100, Math.abs(one.value)),
                );
                expect(other.evidence.interval).toEqual(one.evidence.interval);
              }
            }
          }
          expect(memo.size).toBeGreaterThan(0);
        },
      ),
      { numRuns: 30 },
    );
  });
});
