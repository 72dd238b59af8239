import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../simulation/index.ts';
import {
  errorFor,
  follow,
  leaning,
  noiseOfTest,
  type OwnSession,
  onScale,
  recovered,
  referenceSessions,
  type SessionValue,
} from './index.ts';

/** A simulated squad whose truth is known: level SD 10 %, error 3 %, trends of 4 % a year SD, in logs. */
function squad(people: number, sessions: number, seed: number): SessionValue[] {
  const draw = seededRandom(seed, 0);
  return Array.from({ length: people }, (_, i) => {
    const [level, trend] = [10 * draw.gaussian(), 2 + 4 * draw.gaussian()];
    return Array.from({ length: sessions }, (_, j) => ({
      person: `p${i}`,
      day: 40 * j,
      value: Math.exp((800 + level + trend * ((40 * j) / 365.25) + 3 * draw.gaussian()) / 100),
    }));
  }).flat();
}

describe('noise of a test', () => {
  it('finds the error and the spread that were put in', () => {
    const errors = Array.from({ length: 12 }, (_, seed) => {
      const found = noiseOfTest(squad(20, 6, seed), 'log');
      if (!found.ok) throw new Error(found.reason);
      expect(found.value.people).toBe(20);
      expect(found.value.sessions).toBe(120);
      return found.value;
    });
    const mean = (of: (one: (typeof errors)[number]) => number) => errors.reduce((sum, one) => sum + of(one), 0) / 12;
    // SE of the mean of 12 such errors is about 0.07, of the spread 0.5.
    expect(Math.abs(mean(({ error }) => error.value) - 3)).toBeLessThan(0.25);
    expect(Math.abs(mean(({ spread }) => spread) - 10)).toBeLessThan(2);
    expect(errors.some(({ trends }) => trends === 'own')).toBe(true);
    for (const { worthwhile, spread } of errors) expect(worthwhile).toEqual({ ok: true, value: 0.2 * spread });
  });

  it('does not take the difference of two groups for spread', () => {
    const one = squad(10, 4, 3).map((value) => ({ ...value, group: 'female' }));
    const other = squad(10, 4, 4).map((value) => ({
      ...value,
      person: `q${value.person}`,
      value: 2 * value.value,
      group: 'male',
    }));
    const grouped = noiseOfTest([...one, ...other], 'log');
    const mixed = noiseOfTest(
      [...one, ...other].map(({ group: _, ...value }) => value),
      'log',
    );
    expect(grouped.ok && grouped.value.spread).toBeLessThan(20);
    expect(mixed.ok && mixed.value.spread).toBeGreaterThan(25);
  });

  it('needs people who came twice, and positive values for logs', () => {
    expect(noiseOfTest([], 'log')).toEqual({ ok: false, reason: 'too-few-values' });
    expect(noiseOfTest(squad(5, 1, 1), 'log')).toEqual({ ok: false, reason: 'too-few-values' });
    const zero = squad(5, 3, 1).map((value, i) => (i === 3 ? { ...value, value: 0 } : value));
    expect(noiseOfTest(zero, 'log')).toEqual({ ok: false, reason: 'not-positive' });
    expect(noiseOfTest(zero, 'unit').ok).toBe(true);
  });
});

describe('following one athlete', () => {
  const sessions: readonly OwnSession[] = [
    { day: 0, value: 2800, first: true },
    { day: 30, value: 3000, first: false },
    { day: 60, value: 3050, first: false },
    { day: 90, value: 3020, first: false },
    { day: 120, value: 3400, first: false },
  ];

  it('takes no familiarisation for a reference', () => {
    expect(referenceSessions(sessions, 'last')).toEqual([3]);
    expect(referenceSessions(sessions, 'first')).toEqual([1]);
    expect(referenceSessions(sessions, 'mean-of-three')).toEqual([1, 2, 3]);
    expect(referenceSessions(sessions, 'season-start', 45)).toEqual([2]);
    expect(referenceSessions(sessions, 'season-start', 100)).toEqual([]);
    expect(referenceSessions(sessions, 'season-start')).toEqual([]);
    expect(referenceSessions(sessions.slice(0, 2), 'last')).toEqual([]);
    expect(referenceSessions(sessions.slice(0, 4), 'mean-of-three')).toEqual([]);
  });

  it('judges the newest session by the error used', () => {
    const given = { scale: 'log', error: { value: 3, df: 60 }, worthwhile: 2, better: 'more', unlike: false } as const;
    const last = follow(sessions, 'last', given);
    if (!last.ok) throw new Error(last.reason);
    expect(last.value.value).toBeCloseTo(onScale('log', 3020), 12);
    expect(last.value.change.difference).toBeCloseTo(100 * Math.log(3400 / 3020), 10);
    expect(last.value.change.standardError).toBeCloseTo(3 * Math.SQRT2, 12);
    expect(last.value.change.word).toBe('stronger');
    const mean = follow(sessions, 'mean-of-three', given);
    expect(mean.ok && mean.value.change.standardError).toBeCloseTo(3 * Math.sqrt(4 / 3), 12);
    expect(follow(sessions.slice(0, 2), 'last', given)).toEqual({ ok: false, reason: 'too-few-values' });
    const unlike = follow(sessions, 'last', { ...given, unlike: true });
    expect(unlike.ok && unlike.value.change.word).toBe('probably stronger');
  });

  it('has no error to judge by with a squad unknown and few own sessions', () => {
    const none = { ok: false, reason: 'too-few-values' } as const;
    expect(errorFor(sessions, none, 'log').used).toEqual(none);
    expect(errorFor([...sessions, { day: 150, value: 3300, first: false }], none, 'log').used.ok).toBe(true);
  });
});

describe('coming back from an injury', () => {
  const error = { value: 3, df: Number.POSITIVE_INFINITY };
  it('is a share of the limb’s own value before, with the interval of a change in logs', () => {
    const found = recovered(1800, [1500, 1900, 2000, 2100], error);
    if (!found.ok) throw new Error(found.reason);
    const before = (1900 * 2000 * 2100) ** (1 / 3);
    expect(found.value.value).toBeCloseTo((100 * 1800) / before, 10);
    // z of 97.5 % from the normal table; SE = 3 sqrt(4/3) in 100 ln x.
    const half = 1.959963984540054 * 3 * Math.sqrt(4 / 3);
    expect(found.value.low).toBeCloseTo(found.value.value * Math.exp(-half / 100), 8);
    expect(found.value.high).toBeCloseTo(found.value.value * Math.exp(half / 100), 8);
  });
  it('needs a value from before, and forces', () => {
    expect(recovered(1800, [], error)).toEqual({ ok: false, reason: 'too-few-values' });
    expect(recovered(0, [1500], error)).toEqual({ ok: false, reason: 'not-positive' });
  });
});

describe('an asymmetry', () => {
  // MDC95 = 1.96 sqrt(2) TE = 5.54 for TE 2; 1.65 TE = 3.3.
  const error = { value: 2, df: 30 };
  it('is spoken of beyond its detectable change once, or beyond 1.65 TE to one side in two of three', () => {
    expect(leaning([0, 1, 5.6], error)).toEqual({ side: 'right', rule: 'once-beyond-detectable' });
    expect(leaning([0, 1, -5.6], error)).toEqual({ side: 'left', rule: 'once-beyond-detectable' });
    expect(leaning([3.4, 0, 3.4], error)).toEqual({ side: 'right', rule: 'two-of-three' });
    expect(leaning([-3.4, 3.4, 0], error)).toBeUndefined();
    expect(leaning([9, 3.4, 0, 1], error)).toBeUndefined();
    expect(leaning([5.5], error)).toBeUndefined();
    expect(leaning([], error)).toBeUndefined();
  });
});
