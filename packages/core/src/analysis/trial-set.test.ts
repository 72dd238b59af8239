import { describe, expect, it } from 'vitest';
import { defaultMethod } from '../methods/index.ts';
import type { TrialResult, Verdict } from './result.ts';
import { type SetTrial, setState, summarise } from './trial-set.ts';

const trial = (
  peak: number,
  rate: number | undefined,
  verdict: Verdict = 'counts',
  more: Partial<SetTrial> = {},
): SetTrial => ({
  result: {
    verdict,
    metrics: {
      peak_force: { value: peak, unit: 'N', evidence: {} },
      rfd_0_200: rate === undefined ? { reason: 'onset-not-found' } : { value: rate, unit: 'N/s', evidence: {} },
    },
  } as unknown as TrialResult,
  maximal: true,
  ...more,
});

const rule = defaultMethod.set;

// All numbers by hand from the definitions.
describe('state of a set', () => {
  it('agrees within 250 N of the two highest, and asks for another beyond', () => {
    expect(setState([trial(3000, 1), trial(2750, 1)], rule)).toMatchObject({
      agreement: { ok: true, value: { difference: 250, limit: 250, agree: true } },
      another: false,
      closed: false,
    });
    expect(setState([trial(3000, 1), trial(2749, 1)], rule)).toMatchObject({ another: true });
    expect(setState([trial(3000, 1), trial(2500, 1), trial(2900, 1)], rule).another).toBe(false);
  });

  it('may use a share of the best', () => {
    const share = { ...rule, agreementShare: 0.1 };
    expect(setState([trial(1000, 1), trial(890, 1)], share).agreement).toEqual({
      ok: true,
      value: { difference: 110, limit: 100, agree: false },
    });
  });

  it('counts only maximal trials that count or were overruled', () => {
    const trials = [
      trial(9000, 1, 'counts', { maximal: false }),
      trial(3000, 1, 'repeat'),
      trial(2900, 1, 'look-again', { overruled: 'counts' }),
      trial(2800, 1, 'counts', { overruled: 'does-not-count' }),
      trial(2850, 1),
    ];
    expect(setState(trials, rule)).toMatchObject({ counting: [2, 4], maximal: 4, another: false });
  });

  it('closes after five maximal pulls, rejected ones included', () => {
    const trials = [1, 2, 3, 4, 5].map(() => trial(3000, 1, 'repeat'));
    expect(setState(trials, rule)).toMatchObject({
      closed: true,
      another: false,
      agreement: { ok: false, reason: 'too-few-trials' },
    });
    expect(setState(trials.slice(1), rule)).toMatchObject({ closed: false, another: true });
  });
});

describe('summary of a set', () => {
  const trials = [trial(3000, 8000), trial(2900, 6000), trial(2800, 7000), trial(2000, 1, 'repeat')];

  it('is the mean of all that count, with n, SD and CV', () => {
    const outcome = summarise(trials, 'rfd_0_200', rule);
    expect(outcome).toEqual({
      ok: true,
      value: {
        value: 7000,
        unit: 'N/s',
        summary: 'mean-all',
        used: [0, 1, 2],
        n: 3,
        sd: { ok: true, value: 1000 },
        cv: { ok: true, value: 100 / 7 },
      },
    });
  });

  it('or of the two with the highest peak force, or the best; SD stays that of all', () => {
    const two = summarise(trials, 'rfd_0_200', { ...rule, summary: 'mean-best-two' });
    expect(two.ok && two.value).toMatchObject({ value: 7000, used: [0, 1], n: 3, sd: { value: 1000 } });
    const best = summarise(trials, 'rfd_0_200', { ...rule, summary: 'best' });
    expect(best.ok && best.value).toMatchObject({ value: 8000, used: [0], n: 3 });
  });

  it('gives reasons instead of guesses', () => {
    const few = { ok: false, reason: 'too-few-trials' };
    expect(summarise([], 'peak_force', rule)).toEqual(few);
    expect(summarise(trials.slice(0, 1), 'peak_force', { ...rule, summary: 'mean-best-two' })).toEqual(few);
    const lacking = [trial(3000, undefined), trial(2900, 6000)];
    expect(summarise(lacking, 'rfd_0_200', { ...rule, summary: 'best' })).toEqual(few);
    const one = summarise(lacking, 'rfd_0_200', rule);
    expect(one.ok && one.value).toMatchObject({ value: 6000, n: 1, used: [1], sd: few, cv: few });
  });
});
