import { describe, expect, it } from 'vitest';
import { exponentialTrial } from '../../test/exact-curves.ts';
import { judge } from '../../test/read.ts';
import { checkRegistry } from './index.ts';
import { levelsOf } from './judging.ts';

describe('levels', () => {
  it('are the largest of what a method gives', () => {
    const limits = { warn: 8, warnShareOfWeight: 0.01, fail: 15, failShareOfWeight: 0.02 };
    expect(levelsOf(limits, { weight: 700 })).toEqual({ warn: 8, fail: 15 });
    expect(levelsOf(limits, { weight: 1400 })).toEqual({ warn: 14, fail: 28 });
    expect(levelsOf({ warnSds: 5, warnShareOfPeak: 0.03 }, { sd: 20, peak: 2000 })).toEqual({ warn: 100 });
  });

  it('are not known when a share of an unknown body weight is asked for', () => {
    expect(levelsOf({ warnShareOfWeight: 0.01 })).toBeUndefined();
    expect(levelsOf({})).toEqual({});
  });
});

describe('every check', () => {
  const clean = exponentialTrial(1000, { onsets: { 'local-line': 2000, 'percent-weight-5': 2001 } });

  it('says why and what in words, and has an id of the definitions once', () => {
    expect(checkRegistry.all.map((check) => check.id)).toEqual([
      'quiet_baseline',
      'steady_before',
      'pretension',
      'rest_before',
      'stepped_start',
      'countermovement',
      'onset_agreement',
      'stepped_rise',
      'double_pull',
      'sustained_effort',
      'peak_at_end',
      'spike',
      'early_pull',
      'clipping',
      'gap',
      'lift_off',
      'other_foot',
      'zero_after',
      'noise_for_rfd',
      'sample_rate',
    ]);
    for (const check of checkRegistry.all) {
      expect(check.title.split(' ').length, check.id).toBeLessThanOrEqual(3);
      expect(check.why.length, check.id).toBeGreaterThan(40);
      expect(check.definition.length, check.id).toBeGreaterThan(10);
    }
  });

  it('that speaks only of rates says so', () => {
    const rates = checkRegistry.all.filter((check) => check.scope === 'rates').map((check) => check.id);
    expect(rates.sort()).toEqual(['noise_for_rfd', 'onset_agreement', 'sample_rate', 'stepped_start']);
  });

  it('passes a clean pull or says why it did not judge', () => {
    for (const check of checkRegistry.all) {
      const result = check.judge(clean, check.defaultLimits);
      expect(['pass', 'not-judged'], check.id).toContain(result.status);
      expect(result.status === 'not-judged', check.id).toBe(result.notJudged !== undefined);
      expect(result.value === undefined, check.id).toBe(result.status === 'not-judged');
    }
  });

  it('judges nothing across an open gap', () => {
    const trial = exponentialTrial(1000, {
      gaps: { open: [{ start: 200, end: 4900 }] },
      cue: 1900,
      onsets: { 'local-line': 2000, 'percent-weight-5': 2001 },
    });
    for (const { id } of checkRegistry.all) {
      const { status } = judge(id, trial);
      if (id === 'gap') expect(status).toBe('fail');
      else if (id === 'sample_rate') expect(status).toBe('pass');
      else expect(status, id).toBe('not-judged');
    }
  });

  it('does not hold limits in newtons against torque', () => {
    const torque = exponentialTrial(1000, {
      unit: 'N.m',
      protocol: { load: 'none' },
      weight: 'needs-body-weight',
      unloaded: { before: 0, after: 50 },
    });
    for (const { id, unit } of checkRegistry.all) {
      if (unit !== 'N' || id === 'spike') continue;
      expect(judge(id, torque), id).toMatchObject({ status: 'not-judged', notJudged: 'not-for-this-test' });
    }
    expect(judge('spike', torque)).toMatchObject({ status: 'pass', unit: 'N.m' });
  });
});
