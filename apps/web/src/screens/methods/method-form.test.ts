import { defaultMethod, methodRegistry, succeedMethod } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { draftOf, formOf } from './method-form.ts';

describe('the form of a method', () => {
  it('gives back every built-in method to the last digit when nothing is touched', () => {
    for (const { method } of methodRegistry.all) {
      const { version: _, schema: __, ...draft } = method;
      expect(draftOf(formOf(method), method)).toMatchObject(draft);
      const outcome = succeedMethod(method, { ...draftOf(formOf(method), method), name: 'Boathouse' }, []);
      expect(outcome.ok || outcome.problems.map(({ code }) => code)).toEqual(['method-unchanged']);
    }
  });

  it('reads numbers with a comma, shares in per cent, and takes away what is emptied or not asked', () => {
    const form = formOf(defaultMethod);
    const gap = form.checks.gap as (typeof form.checks)[string];
    const quiet = form.checks.quiet_baseline as (typeof form.checks)[string];
    expect(quiet.limits.warnShareOfWeight).toBe('1');
    const draft = draftOf(
      {
        ...form,
        name: 'Boathouse',
        numbers: { ...form.numbers, 'window.baseline': '0,5', 'filter.cutoff': '80', 'set.agreementShare': '10' },
        checks: {
          ...form.checks,
          gap: { ...gap, use: false },
          quiet_baseline: { ...quiet, limits: { ...quiet.limits, warnShareOfWeight: '1.5' } },
        },
      },
      defaultMethod,
    );
    const outcome = succeedMethod(defaultMethod, draft, []);
    expect(outcome.ok && outcome.method.derivedFrom?.changes).toEqual({
      'filter.cutoff': 80,
      'window.baseline': 0.5,
      'set.agreementShare': 0.1,
      'checks.gap': 'off',
      'checks.quiet_baseline.limits.warnShareOfWeight': 0.015,
    });
    const without = draftOf({ ...form, numbers: { ...form.numbers, 'filter.cutoff': '' } }, defaultMethod);
    expect(without).not.toHaveProperty('filter');
  });

  it('leaves what is no number to the schema, which names the place', () => {
    const form = formOf(defaultMethod);
    const draft = draftOf({ ...form, name: 'B', numbers: { ...form.numbers, 'window.search': 'long' } }, defaultMethod);
    const outcome = succeedMethod(defaultMethod, draft, []);
    expect(outcome.ok || outcome.problems.map(({ at }) => at)).toEqual(['window.search']);
  });
});
