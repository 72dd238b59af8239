import { describe, expect, it } from 'vitest';
import {
  type ChangeQuestion,
  combinedError,
  judgeChange,
  levelOf,
  ownError,
  sessionError,
  sessionsToHalve,
  smallestConfirmable,
  wordByChance,
} from './index.ts';

const known = Number.POSITIVE_INFINITY;
const ask = (difference: number, te: number, worthwhile: number, more: Partial<ChangeQuestion> = {}) =>
  judgeChange({
    now: 1000 + difference,
    reference: 1000,
    sessions: [1, 1],
    error: { value: te, df: known },
    worthwhile,
    better: 'more',
    ...more,
  });

describe('a change', () => {
  // Hopkins 2004, Sportscience 8:1-7 (numbers of its team illustration from memory); arithmetic in full precision.
  it('probabilities of more, less and neither', () => {
    const { more, less, within } = ask(1.5, 1, 0.5);
    expect(more).toBeCloseTo(0.76025, 6);
    expect(less).toBeCloseTo(0.07865, 6);
    expect(within).toBeCloseTo(0.1611, 6);
  });

  it('in newtons, with its intervals', () => {
    const { more, less, within, intervals, detectable, word, standardError } = ask(180, 105, 80);
    expect(standardError).toBeCloseTo(148.49242405, 8);
    expect(more).toBeCloseTo(0.749665, 6);
    expect(less).toBeCloseTo(0.039979, 6);
    expect(within).toBeCloseTo(0.210356, 6);
    const [fifty, , ninetyFive] = intervals;
    expect((fifty.high - fifty.low) / 2).toBeCloseTo(100.156618, 4);
    expect((ninetyFive.high - ninetyFive.low) / 2).toBeCloseTo(291.0398, 4);
    expect(detectable).toBeCloseTo(291.045151, 4);
    expect(word).toBe("inside the test's noise");
  });

  it('no difference is trivial where any change is worth while (9.14)', () => {
    const { more, less, within } = ask(30, 105, 0);
    expect(within).toBeCloseTo(0, 12);
    expect(more + less).toBeCloseTo(1, 12);
  });

  // isometric-and-statistics.md 9.7 (calc): each limb errs by 4.5 %, so their difference in logs by sqrt 2 of it.
  it('between two limbs is the error of both', () => {
    const sides = { now: 100 * Math.log(1500), reference: 100 * Math.log(1300) };
    const one = ask(0, 4.5, 0, sides);
    expect(one.difference).toBeCloseTo(14.310084, 6);
    expect(one.standardError).toBeCloseTo(6.363961, 5);
    expect(one.detectable).toBeCloseTo(12.473364, 5);
    const three = ask(0, 4.5, 0, { ...sides, sessions: [3, 3] });
    expect(1.96 * three.standardError).toBeCloseTo(7.2015, 5);
  });

  it('one word for each case', () => {
    expect(ask(500, 105, 80).word).toBe('stronger');
    expect(ask(-500, 105, 80).word).toBe('weaker');
    expect(ask(290, 105, 80).word).toBe('probably stronger');
    expect(ask(-290, 105, 80).word).toBe('probably weaker');
    expect(ask(0, 20, 80).word).toBe('unchanged');
    expect(ask(100, 105, 80).word).toBe("inside the test's noise");
    // Beyond the detectable change, and yet neither beyond the worthwhile one nor within it for sure.
    expect(ask(60, 20, 60).word).toBe('cannot tell yet');
  });

  it('turns round where less is better', () => {
    expect(ask(500, 105, 80, { better: 'less' }).word).toBe('weaker');
    expect(ask(-500, 105, 80, { better: 'less' }).word).toBe('stronger');
  });

  it('claims one step less where something else differs', () => {
    const unlike = { unlike: true };
    expect(ask(500, 105, 80, unlike)).toMatchObject({ word: 'probably stronger', alike: 'stronger' });
    expect(ask(290, 105, 80, unlike).word).toBe("inside the test's noise");
    expect(ask(0, 20, 80, unlike).word).toBe("inside the test's noise");
    expect(ask(60, 20, 60, unlike).word).toBe('cannot tell yet');
  });

  it('is wider with an error that is little known, and narrower with more sessions', () => {
    const few = ask(180, 105, 80, { error: { value: 105, df: 4 } });
    expect(few.intervals[2].high).toBeGreaterThan(ask(180, 105, 80).intervals[2].high);
    expect(ask(180, 105, 80, { sessions: [1, 3] }).standardError).toBeCloseTo(105 * Math.sqrt(4 / 3), 10);
  });

  // By hand: 148.492^2 + 60^2 = 160.156^2.
  it('is less sure between two rigs, whose gain is not in the scatter between sessions', () => {
    const apart = ask(180, 105, 80, { rigs: 60 });
    expect(apart.standardError).toBeCloseTo(Math.sqrt(2 * 105 ** 2 + 60 ** 2), 10);
    expect(apart.more).toBeLessThan(ask(180, 105, 80).more);
    expect(apart.detectable).toBe(ask(180, 105, 80).detectable);
    expect(ask(180, 105, 80, { rigs: 0 })).toEqual(ask(180, 105, 80));
  });

  it('says what chance alone would call changed', () => {
    const chance = wordByChance({ sessions: [1, 1], error: { value: 105, df: known }, worthwhile: 0 });
    expect(chance.sure).toBeCloseTo(0.1, 10);
    expect(chance.probable).toBeCloseTo(0.2, 10);
    const { sure } = wordByChance({ sessions: [1, 1], error: { value: 105, df: 20 }, worthwhile: 80 });
    expect(sure).toBeLessThan(0.05);
  });
});

describe('the error a change is judged by', () => {
  it('is the squad’s and the athlete’s own, by degrees of freedom', () => {
    const both = combinedError({ value: 100, df: 40 }, { value: 60, df: 10 });
    expect(both).toEqual({ ok: true, value: { value: Math.sqrt((10 * 100 ** 2 + 10 * 60 ** 2) / 20), df: 20 } });
    expect(combinedError({ value: 100, df: 40 }, undefined)).toEqual({ ok: true, value: { value: 100, df: 40 } });
    expect(combinedError({ value: 100, df: 4 }, undefined)).toEqual({ ok: true, value: { value: 100, df: 10 } });
    expect(combinedError(undefined, { value: 60, df: 3 })).toEqual({ ok: true, value: { value: 60, df: 3 } });
    expect(combinedError(undefined, { value: 60, df: 2 })).toEqual({ ok: false, reason: 'too-few-values' });
    expect(combinedError(undefined, undefined)).toEqual({ ok: false, reason: 'too-few-values' });
  });

  it('takes no trend for noise', () => {
    expect(ownError([0, 30, 60, 90], [1000, 1030, 1060, 1090])).toEqual({ ok: true, value: { value: 0, df: 2 } });
    expect(ownError([0, 1], [1, 2])).toEqual({ ok: false, reason: 'too-few-values' });
    expect(ownError([5, 5, 5], [1, 2, 3])).toEqual({ ok: false, reason: 'no-spread' });
    expect(sessionError(3, 4, 4)).toBeCloseTo(Math.sqrt(13), 12);
  });
});

describe('what a test can confirm', () => {
  const test = { error: { value: 100, df: known }, worthwhile: 50, sessions: [1, 1] as const };
  it('by error, worthwhile change and sessions', () => {
    expect(smallestConfirmable(test)).toBeCloseTo(50 + (1.644853627 + 0.841621234) * 100 * Math.SQRT2, 5);
    const gain = smallestConfirmable(test);
    // Four times in five a true gain of that size is called stronger: the observed gain is normal about it.
    const needed = 50 + 1.644853627 * 100 * Math.SQRT2;
    expect((gain - needed) / (100 * Math.SQRT2)).toBeCloseTo(0.841621234, 6);
  });

  it('less between two rigs, which more sessions do not bring together', () => {
    const apart = { ...test, rigs: 200 };
    const se = Math.sqrt(2 * 100 ** 2 + 200 ** 2);
    expect(smallestConfirmable(apart)).toBeCloseTo(50 + (1.644853627 + 0.841621234) * se, 5);
    expect(sessionsToHalve({ ...test, rigs: 1000 })).toBeUndefined();
  });

  it('and what would halve it', () => {
    const sessions = sessionsToHalve(test) as number;
    const half = smallestConfirmable(test) / 2;
    expect(smallestConfirmable({ ...test, sessions: [sessions, sessions] })).toBeLessThanOrEqual(half);
    expect(smallestConfirmable({ ...test, sessions: [sessions - 1, sessions - 1] })).toBeGreaterThan(half);
    expect(sessionsToHalve({ ...test, worthwhile: 1000 })).toBeUndefined();
  });
});

describe('a level known from the team', () => {
  it('moves from the team to the athlete', () => {
    const prior = { mean: 3000, sd: 350, error: 120 };
    const one = levelOf(prior, { n: 1, mean: 3400 });
    for (const [got, wanted] of [
      [one.mean, 3357.925493],
      [one.sd, 113.513514],
      [one.nextSd, 165.18268],
      [one.band[0], 3034.167],
      [one.band[1], 3681.684],
    ] as const)
      expect(Math.abs(got - wanted)).toBeLessThan(1e-3);
    const four = levelOf(prior, { n: 4, mean: 3380 });
    expect(four.mean).toBeCloseTo(3369.151467, 5);
    expect(four.sd).toBeCloseTo(59.137335, 5);
    expect(four.nextSd).toBeCloseTo(133.780508, 5);
    expect(Math.abs(four.band[0] - 3106.942)).toBeLessThan(1e-3);
    expect(Math.abs(four.band[1] - 3631.361)).toBeLessThan(1e-3);
    const none = levelOf(prior, { n: 0, mean: Number.NaN });
    expect(none.mean).toBe(3000);
    expect(none.nextSd).toBeCloseTo(370, 12);
  });
});
