import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { trialOf } from '../../test/trial-of.ts';
import { checkRegistry } from './index.ts';

/** A pull with random bumps, so that checks see something; the same numbers for a given seed. */
const pull = fc
  .record({
    sampleRate: fc.constantFrom(500, 600, 1000, 2000),
    bump: fc.nat(300),
    seed: fc.integer({ min: 1, max: 1e6 }),
  })
  .map(({ sampleRate, bump, seed }) => {
    let state = seed;
    const noise = () => {
      state = (state * 48271) % 2147483647;
      return 4 * (state / 2147483647 - 0.5);
    };
    const onset = 2 * sampleRate;
    const total = Array.from({ length: 6 * sampleRate }, (_, i) => {
      const t = (i - onset) / sampleRate;
      const rise = t > 0 ? 1800 * (1 - Math.exp(-t / 0.15)) : 0;
      return (
        800 +
        rise -
        bump * Math.exp(-(((t + 0.2) / 0.05) ** 2)) -
        bump * Math.exp(-(((t - 0.15) / 0.02) ** 2)) +
        noise()
      );
    });
    const right = total.map((force) => force * 0.45 + noise());
    const left = total.map((force, i) => force - (right[i] ?? 0));
    let halfRise = onset;
    while ((total[halfRise] ?? 0) <= 1700) halfRise++;
    return { sampleRate, left, right, onset, halfRise: halfRise - 1, cue: onset - 10 };
  });

describe('checks', () => {
  it('do not change when everything happens later, and mark the same places', () => {
    fc.assert(
      fc.property(pull, fc.integer({ min: 1, max: 700 }), (options, delay) => {
        const { sampleRate } = options;
        const shift = (side: number[]) => [...Array.from({ length: delay }, () => 400), ...side];
        const plain = trialOf({ ...options, weight: 800, baseline: { start: 0, end: sampleRate } });
        const later = trialOf({
          ...options,
          left: shift(options.left),
          right: shift(options.right),
          onset: options.onset + delay,
          halfRise: options.halfRise + delay,
          cue: options.cue + delay,
          weight: 800,
          baseline: { start: delay, end: sampleRate + delay },
        });
        for (const check of checkRegistry.all) {
          const a = check.judge(plain, check.defaultLimits);
          const b = check.judge(later, check.defaultLimits);
          expect(b.status, check.id).toBe(a.status);
          expect(Math.abs((b.value ?? 0) - (a.value ?? 0)), check.id).toBeLessThan(1e-8);
          if (a.judged)
            expect(b.judged, check.id).toEqual({ start: a.judged.start + delay, end: a.judged.end + delay });
          expect(b.marks?.map((mark) => mark.at)).toEqual(a.marks?.map((mark) => mark.at + delay));
        }
      }),
      { numRuns: 20 },
    );
  });

  it('do not care which side is which on two feet', () => {
    fc.assert(
      fc.property(pull, (options) => {
        const plain = trialOf({ ...options, weight: 800 });
        const swapped = trialOf({ ...options, left: options.right, right: options.left, weight: 800 });
        for (const check of checkRegistry.all) {
          const a = check.judge(plain, check.defaultLimits);
          const b = check.judge(swapped, check.defaultLimits);
          expect(b.status, check.id).toBe(a.status);
          expect(Math.abs((b.value ?? 0) - (a.value ?? 0)), check.id).toBeLessThan(1e-8);
        }
      }),
      { numRuns: 20 },
    );
  });
});
