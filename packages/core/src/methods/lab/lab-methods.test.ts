import { describe, expect, it } from 'vitest';
import { onsetRegistry } from '../../onset/index.ts';
import {
  defaultMethod,
  deriveMethod,
  isVariant,
  type Method,
  type MethodDraft,
  methodChanges,
  methodDifferences,
  methodFields,
  methodReference,
  methodRegistry,
  methodSentences,
  succeedMethod,
  validateMethod,
} from '../index.ts';

const draftOf = (method: Method, more: Partial<Method> = {}): MethodDraft => ({ ...structuredClone(method), ...more });
const codes = (outcome: ReturnType<typeof succeedMethod>) =>
  outcome.ok ? [] : outcome.problems.map(({ code }) => code);
const made = (outcome: ReturnType<typeof succeedMethod>): Method => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.method;
};

describe('a successor', () => {
  const first = made(
    succeedMethod(
      defaultMethod,
      draftOf(defaultMethod, { name: ' Boathouse ', onset: { rule: 'five-sd', version: 1 } }),
      [],
    ),
  );

  it('begins at 1 under a new name, counts on under the same one, and says what was changed', () => {
    expect(first).toMatchObject({
      name: 'Boathouse',
      version: 1,
      derivedFrom: { ...methodReference(defaultMethod), changes: { 'onset.rule': 'five-sd' } },
    });
    const checks: Method['checks'] = { ...first.checks, gap: { version: 1, limits: { warn: 1, fail: 0 } } };
    const { early_pull: _, ...fewer } = checks;
    const draft = draftOf(first, { filter: { kind: 'butterworth-zero-lag', cutoff: 80 }, checks: fewer });
    const second = made(succeedMethod(first, draft, [defaultMethod, first]));
    expect(second).toMatchObject({ name: 'Boathouse', version: 2, summary: first.summary });
    expect(second.derivedFrom?.changes).toEqual({
      'filter.cutoff': 80,
      'checks.gap.limits.warn': 1,
      'checks.early_pull': 'off',
    });
    expect(validateMethod(JSON.parse(JSON.stringify(second)))).toEqual({ ok: true, method: second });
    // What is kept as changes makes the same recipe of the earlier one.
    const again = deriveMethod(first, second.derivedFrom?.changes ?? {});
    expect(again.ok && methodDifferences(again.method, second)).toEqual([]);
    expect(isVariant(second)).toBe(false);
    expect(again.ok && isVariant(again.method)).toBe(true);
  });

  it('is refused where it is the same, unusable, or bears a name that is taken', () => {
    const named = (name: string) => draftOf(defaultMethod, { name, allometricExponent: 0.5 });
    expect(codes(succeedMethod(first, draftOf(first, { name: 'Other', summary: 'Other words.' }), []))).toEqual([
      'method-unchanged',
    ]);
    expect(codes(succeedMethod(defaultMethod, named('Sthene standard'), []))).toEqual(['method-name-reserved']);
    expect(codes(succeedMethod(first, named('Boathouse, with a hat'), []))).toEqual(['method-name-reserved']);
    const window = { ...first.window, baseline: -1 };
    expect(codes(succeedMethod(first, draftOf(first, { window }), []))).toEqual(['method-out-of-range']);
    expect(codes(succeedMethod(first, {} as never, []))).toContain('method-missing-field');
  });
});

describe('two methods', () => {
  it('differ place by place, in words and with their units', () => {
    const lowPass = methodRegistry.get('low-pass-50')?.method as Method;
    expect(methodDifferences(defaultMethod, lowPass)).toEqual([
      { at: 'filter.cutoff', title: 'Low-pass filter', after: '50 Hz' },
    ]);
    const { gap: _, ...checks }: Method['checks'] = defaultMethod.checks;
    const quiet = checks.quiet_baseline as Method['checks'][string];
    const other = {
      ...defaultMethod,
      checks: { ...checks, quiet_baseline: { ...quiet, limits: { ...quiet.limits, warnShareOfWeight: 0.025 } } },
      set: { ...defaultMethod.set, summary: 'best' as const },
    };
    expect(methodDifferences(defaultMethod, other)).toEqual([
      {
        at: 'checks.quiet_baseline.limits.warnShareOfWeight',
        title: 'Check: Quiet before pull. Limit to look again, as a share of body weight',
        before: '1 %',
        after: '2.5 %',
      },
      expect.objectContaining({ at: 'checks.gap', before: 'version 1' }),
      {
        at: 'set.summary',
        title: 'Value of a session',
        before: 'mean of all trials that count',
        after: 'the best one',
      },
    ]);
    expect(methodChanges(defaultMethod, other)).toMatchObject({ 'checks.gap': 'off', 'set.summary': 'best' });
    expect(methodDifferences(defaultMethod, { ...defaultMethod, name: 'x', version: 9 })).toEqual([]);
  });
});

describe('words of a method', () => {
  it('name the onset rule, what is off and every field', () => {
    for (const { method } of methodRegistry.all) {
      const text = methodSentences(method).join(' ');
      expect(text).toContain(onsetRegistry.get(method.onset.rule)?.title);
      expect(text).not.toMatch(/undefined|NaN/);
    }
    const { spike: _, ...checks }: Method['checks'] = defaultMethod.checks;
    expect(methodSentences({ ...defaultMethod, checks }).join(' ')).toContain('; off: ');
    for (const { at, help } of methodFields) {
      expect(help).toMatch(/\.$/);
      const outcome = deriveMethod(defaultMethod, { [at]: at.endsWith('Share') || at.endsWith('Exponent') ? 0.5 : 2 });
      expect(outcome.ok, at).toBe(true);
    }
  });
});
