import { defaultMethod, faults } from '@sthene/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { scoredPart, scorePull } from './judge.ts';
import { optionsFrom } from './options.ts';
import { defaults, kinds, plannedPulls } from './plan.ts';
import { isRight, onsetScore, quantile, type ScoredPull, tally, targets } from './score.ts';
import { asMarkdown, asText, tablesOf } from './table.ts';

const small = { ...defaults, pulls: 24 };

describe('the default method against simulated truth', () => {
  let pulls: readonly ScoredPull[] = [];
  beforeAll(() => {
    const method = scoredPart(defaultMethod);
    pulls = plannedPulls(small).map((planned) => scorePull(planned, method));
  });

  it('scores every kind', () => {
    expect(new Set(pulls.map((pull) => pull.kind)).size).toBe(faults.length + 3);
  });

  // Full tables (6000 pulls, seeds 1 and 2): 99.9 and 100 %, 0.07 and 0.04 %, 1.7 and 1.7 %. This sample holds 86 good pulls on quiet
  // plates, 450 bad ones and 144 good ones, so each target is more than two standard errors away from what is expected.
  it('finds the onset within 20 ms in 95 % of good pulls on plates of up to 1 N', () => {
    expect(targets(pulls).onsetWithin20.reached).toBeGreaterThanOrEqual(0.95);
  });

  it('lets under 2 % of bad pulls count', () => {
    expect(targets(pulls).badCounted.reached).toBeLessThan(0.02);
  });

  it('refuses under 5 % of good pulls', () => {
    expect(targets(pulls).goodRefused.reached).toBeLessThan(0.05);
  });

  it('finds most onsets on noisy plates too (full table: 100 % at 2 N, 97 % at 5 N)', () => {
    const noisy = pulls.filter((pull) => pull.good && pull.plateNoise > 1);
    expect(onsetScore(noisy).within20).toBeGreaterThan(0.9);
  });

  it('lets no kind of fault through more often than one time in twenty', () => {
    for (const fault of faults) {
      const own = pulls.filter((pull) => pull.kind === fault.id && !pull.marginal);
      expect(tally(own).counts / own.length, fault.id).toBeLessThanOrEqual(0.05);
    }
  });

  it('demands a repeat wherever a fault allows nothing else', () => {
    for (const fault of faults.filter(({ expected }) => !expected.includes('look-again'))) {
      for (const pull of pulls.filter(({ kind }) => kind === fault.id)) expect(isRight(pull), fault.id).toBe(true);
    }
  });

  it('gives the same scores for the same seed', () => {
    const method = scoredPart(defaultMethod);
    const again = plannedPulls(small)
      .filter((_, i) => i % 50 === 0)
      .map((planned) => scorePull(planned, method));
    expect(again).toEqual(pulls.filter((_, i) => i % 50 === 0));
  });

  it('judges by checks and onset alone as with all metrics', () => {
    for (const planned of plannedPulls(small).filter((_, i) => i % 60 === 0)) {
      expect(scorePull(planned, scoredPart(defaultMethod))).toEqual(scorePull(planned, defaultMethod));
    }
  });

  it('prints every table as text and as a page, with one row a kind', () => {
    const tables = tablesOf(pulls);
    expect(tables.map((table) => table.title)).toContain('Truth against verdict');
    for (const table of tables) {
      for (const row of table.rows) expect(row).toHaveLength(table.head.length);
      expect(asText(table)).toContain(table.rows[0]![0]!);
      expect(
        asMarkdown(table)
          .split('\n')
          .filter((line) => line.startsWith('|')),
      ).toHaveLength(table.rows.length + 2);
    }
    const byMass = tables.find((table) => table.title === 'Share that counts by body mass')!;
    expect(byMass.rows).toHaveLength(kinds.length);
  });
});

describe('scores', () => {
  const pull = (more: Partial<ScoredPull>): ScoredPull => ({
    kind: 'good',
    good: true,
    seed: 1,
    bodyMass: 80,
    plateNoise: 0.5,
    pace: 'fast',
    form: 'sigmoid',
    breathing: 5,
    severity: {},
    marginal: false,
    verdict: 'counts',
    raised: [],
    onsetError: 0,
    ...more,
  });

  it('interpolates quantiles between order statistics', () => {
    // R 4.x, quantile(c(1, 2, 3, 4), c(0, 0.5, 0.95, 1)) with its default type 7: 1, 2.5, 3.85, 4 (by its formula).
    const values = [4, 1, 3, 2];
    expect(quantile(values, 0)).toBe(1);
    expect(quantile(values, 0.5)).toBe(2.5);
    expect(quantile(values, 0.95)).toBeCloseTo(3.85, 12);
    expect(quantile(values, 1)).toBe(4);
  });

  it('counts a missing onset as beyond every limit', () => {
    const score = onsetScore([pull({ onsetError: 20 }), pull({ onsetError: -21 }), pull({ onsetError: null })]);
    expect(score.within20).toBeCloseTo(1 / 3, 12);
    expect(score.missing).toBe(1);
  });

  it('keeps marginal faults and noisy plates out of the targets they do not belong to', () => {
    const reached = targets([
      pull({}),
      pull({ plateNoise: 5, onsetError: 90, verdict: 'look-again' }),
      pull({ kind: 'dip', good: false, verdict: 'counts', marginal: true }),
      pull({ kind: 'dip', good: false, verdict: 'counts' }),
      pull({ kind: 'dip', good: false, verdict: 'repeat' }),
    ]);
    expect(reached.onsetWithin20).toEqual({ reached: 1, target: 0.95, met: true });
    expect(reached.badCounted).toEqual({ reached: 0.5, target: 0.02, met: false });
    expect(reached.goodRefused).toEqual({ reached: 0.5, target: 0.05, met: false });
  });

  it('asks for the verdict that suits the fault', () => {
    expect(isRight(pull({ kind: 'clipping', good: false, verdict: 'look-again' }))).toBe(false);
    expect(isRight(pull({ kind: 'clipping', good: false, verdict: 'repeat' }))).toBe(true);
    expect(isRight(pull({ kind: 'dip', good: false, verdict: 'look-again' }))).toBe(true);
    expect(isRight(pull({ verdict: 'look-again' }))).toBe(false);
  });
});

describe('options', () => {
  it('take lists and a built-in method', () => {
    const options = optionsFrom(['--noise', '0.4,2', '--body-weight', '60', '--pulls', '12', '--method', 'fixed-75']);
    expect(options).toMatchObject({ noise: [0.4, 2], bodyWeight: [60], pulls: 12, method: { name: 'Fixed 75 N' } });
  });

  it.each([
    [['--noise', 'loud'], /--noise: expected numbers/],
    [['--noise', '1,,2'], /--noise: expected numbers/],
    [['--pulls', '2.5'], /whole number/],
    [['--pulls', '1,2'], /one number/],
    [['--method', 'no-such-file'], /no built-in method \(standard/],
    [['--loud'], /loud/],
  ])('refuse %j with words', (args, words) => {
    const outcome = optionsFrom(args);
    expect('problem' in outcome && outcome.problem).toMatch(words);
  });
});

describe('the default rule on rises slower than any in the table', () => {
  // Half times of 0.4 to 0.6 s, beyond the 0.22 s of the table. With the line always 150 ms before q the sigmoid ones were found (within 20 ms) in 30 % and less.
  it.each([0.4, 0.6])('half time of %f s', (halfTime) => {
    const errors: number[] = [];
    for (let seed = 1; seed <= 15; seed++) {
      for (const form of ['sigmoid', 'second-order'] as const) {
        const kind = { id: 'good', title: '', good: true, spec: {}, weight: 1 };
        const spec = { form, halfTime, plateNoise: 0.5 };
        const { onsetError } = scorePull(
          { kind, seed, bodyMass: 80, plateNoise: 0.5, spec },
          scoredPart(defaultMethod),
        );
        errors.push(onsetError ?? Number.POSITIVE_INFINITY);
      }
    }
    expect(errors.filter((error) => Math.abs(error) <= 30).length / errors.length).toBeGreaterThanOrEqual(0.9);
  });
});
