import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkRegistry } from '../checks/index.ts';
import { metricRegistry } from '../metrics/index.ts';
import { isometricEffortIn, protocolRegistry } from '../protocols/index.ts';
import {
  canonicalJson,
  defaultMethod,
  deriveMethod,
  methodFor,
  methodReference,
  methodRegistry,
  validateMethod,
} from './index.ts';
import type { Method } from './method.ts';

const copy = (method: Method = defaultMethod) => structuredClone(method) as unknown as Record<string, never>;
const codes = (document: unknown) => {
  const outcome = validateMethod(document);
  return outcome.ok ? [] : outcome.problems.map(({ code, at }) => `${code} ${at}`);
};

describe('canonical JSON', () => {
  // RFC 8785, section 3.2.3 (order of members) and appendix B (numbers).
  it('sorts by UTF-16 code units and writes numbers as ECMAScript does', () => {
    const names = ['\r', '1', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33'];
    const shuffled = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6'];
    const text = canonicalJson(Object.fromEntries(shuffled.map((name) => [name, 0])));
    expect([...text.matchAll(/"([^"]+)":0/gu)].map((match) => JSON.parse(`"${match[1]}"`))).toEqual(names);
    expect(canonicalJson([1e21, 4.5, 2e-3, 1e-27, -0])).toBe('[1e+21,4.5,0.002,1e-27,0]');
  });

  it('does not depend on the order of members, and reads back', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
        const turned = Object.fromEntries(Object.entries(value).reverse());
        expect(canonicalJson(turned as never)).toBe(canonicalJson(value as never));
        expect(JSON.parse(canonicalJson(value as never))).toEqual(JSON.parse(JSON.stringify(value)));
      }),
    );
    expect(() => canonicalJson(Number.NaN)).toThrow(TypeError);
  });
});

describe('built-in methods', () => {
  // A released method never changes. Hashes checked with Python 3.11 hashlib and json.dumps(sort_keys=True,
  // separators=(',', ':'), ensure_ascii=False) over the document without `summary`.
  it.each([
    ['standard', 'Sthene standard', '85860346c194d35453bd198bb8cf3d94fd07696f80d9454a24d9de5f3e21f1a1'],
    ['five-sd', 'Five SD', '6d7012094665da1718da49c8553ca5e3e1958d33552b939bfddbd02fff064a9d'],
    ['fixed-75', 'Fixed 75 N', '888e15bce60c2e2f86feeb1f14530a6163c3b26a9908f772c5e65d2ea4dbe776'],
    ['low-pass-50', 'Low-pass 50 Hz', '3d147fcd8eff917d2b21a8d8503ebe3a9f015ce8ac85b9cde9a53b982ca11516'],
  ])('%s keeps its hash', (id, name, sha256) => {
    const method = methodRegistry.get(id)?.method as Method;
    expect(methodReference(method)).toEqual({ name, version: 1, sha256 });
  });

  it('are valid, frozen, and name every metric and check with its limits', () => {
    for (const { method } of methodRegistry.all) {
      expect(validateMethod(JSON.parse(JSON.stringify(method)))).toEqual({ ok: true, method });
      expect(Object.isFrozen(method.window)).toBe(true);
      expect(Object.keys(method.metrics).sort()).toEqual(metricRegistry.all.map(({ id }) => id).sort());
      expect(Object.keys(method.checks)).toEqual(checkRegistry.all.map(({ id }) => id));
      for (const check of checkRegistry.all) expect(method.checks[check.id]?.limits).toEqual(check.defaultLimits);
    }
  });

  it('hash the content, not the words about it', () => {
    const reworded = { ...defaultMethod, summary: 'Other words.' };
    expect(methodReference(reworded)).toEqual(methodReference(defaultMethod));
    const renamed = { ...defaultMethod, name: 'Another' };
    expect(methodReference(renamed).sha256).not.toBe(methodReference(defaultMethod).sha256);
  });
});

describe('derived methods', () => {
  it('are named, hashed and point to where they come from', () => {
    const outcome = deriveMethod(defaultMethod, { 'window.baseline': 0.5, 'onset.rule': 'three-sd' });
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
    const { method } = outcome;
    expect(method.name).toBe('Sthene standard, with onset.rule three-sd, window.baseline 0.5');
    expect(method.window.baseline).toBe(0.5);
    expect(method.onset).toEqual({ rule: 'three-sd', version: 1 });
    expect(method.derivedFrom).toEqual({
      ...methodReference(defaultMethod),
      changes: { 'onset.rule': 'three-sd', 'window.baseline': 0.5 },
    });
    expect(defaultMethod.window.baseline).toBe(1);
    expect(methodReference(method).sha256).not.toBe(methodReference(defaultMethod).sha256);
    const again = deriveMethod(defaultMethod, { 'onset.rule': 'three-sd', 'window.baseline': 0.5 });
    expect(again.ok && methodReference(again.method)).toEqual(methodReference(method));
  });

  it('reach filters, sets and limits, and no changes give the method itself', () => {
    const outcome = deriveMethod(defaultMethod, {
      'filter.cutoff': 100,
      'set.agreementShare': 0.1,
      'checks.quiet_baseline.limits.warn': 12,
    });
    expect(outcome.ok && outcome.method).toMatchObject({
      filter: { cutoff: 100 },
      set: { agreementShare: 0.1 },
      checks: { quiet_baseline: { limits: { warn: 12 } } },
    });
    const lowPass = methodRegistry.get('low-pass-50')?.method as Method;
    const unfiltered = deriveMethod(lowPass, { 'filter.cutoff': 0 });
    expect(unfiltered.ok && unfiltered.method.filter).toBeUndefined();
    expect(deriveMethod(defaultMethod, {})).toEqual({ ok: true, method: defaultMethod });
  });

  it('refuse unknown paths and impossible values as data', () => {
    for (const changes of [
      { 'window.width': 1 },
      { name: 'x' },
      { 'checks.mood.limits.warn': 1 },
      { '__proto__.x': 1 },
    ]) {
      const outcome = deriveMethod(defaultMethod, changes as never);
      expect(outcome.ok || outcome.problems.map(({ code }) => code)).toEqual(['method-unknown-field']);
    }
    const rule = deriveMethod(defaultMethod, { 'onset.rule': 'by-hand' });
    expect(rule.ok || rule.problems.map(({ code }) => code)).toEqual(['method-unknown-onset-rule']);
    const length = deriveMethod(defaultMethod, { 'window.baseline': -1 });
    expect(length.ok || length.problems.map(({ code }) => code)).toEqual(['method-out-of-range']);
  });

  it('come by themselves in a test that sets its own baseline', () => {
    expect(methodFor(defaultMethod, isometricEffortIn('N', 0.2))).toMatchObject({
      name: 'Sthene standard, with window.baseline 0.2',
      window: { baseline: 0.2 },
    });
    expect(methodFor(defaultMethod, isometricEffortIn('N', 1))).toBe(defaultMethod);
    for (const protocol of protocolRegistry.all) expect(methodFor(defaultMethod, protocol)).toBe(defaultMethod);
  });
});

describe('methods from outside', () => {
  it('are refused with every problem and its place', () => {
    expect(codes(null)).toEqual(['method-wrong-type ']);
    expect(codes({})).toContain('method-missing-field onset');
    expect(codes({ ...copy(), schema: 'sthene.method/2' })).toEqual(['method-wrong-schema schema']);
    expect(codes({ ...copy(), colour: 1 })).toEqual(['method-unknown-field colour']);
    expect(codes({ ...copy(), version: 1.5, name: ' ' })).toEqual([
      'method-wrong-type name',
      'method-out-of-range version',
    ]);
    expect(codes({ ...copy(), onset: { rule: 'guess', version: 1 } })).toEqual([
      'method-unknown-onset-rule onset.rule',
    ]);
    expect(codes({ ...copy(), onset: { rule: 'five-sd', version: 2 } })).toEqual([
      'method-unknown-onset-rule onset.version',
    ]);
    expect(codes({ ...copy(), metrics: { wingspan: 1 } })).toEqual(['method-unknown-metric metrics.wingspan']);
    expect(codes({ ...copy(), checks: { gap: { version: 1, limits: { blue: 1 } } } })).toEqual([
      'method-unknown-limit checks.gap.limits.blue',
    ]);
    expect(codes({ ...copy(), checks: { mood: { version: 1, limits: {} } } })).toEqual([
      'method-unknown-check checks.mood',
    ]);
    expect(codes({ ...copy(), window: { baseline: '1', anchor: 0.25, search: 3, clearance: -1 } })).toEqual([
      'method-wrong-type window.baseline',
      'method-out-of-range window.clearance',
    ]);
    expect(codes({ ...copy(), set: { summary: 'median', agreement: 250, closesAfter: 5 } })).toEqual([
      'method-out-of-range set.summary',
    ]);
    expect(codes({ ...copy(), filter: { kind: 'butterworth-zero-lag', cutoff: 0 } })).toEqual([
      'method-out-of-range filter.cutoff',
    ]);
  });

  it('never make the reader throw', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom(...Object.keys(defaultMethod), 'derivedFrom'), (value, field) => {
        validateMethod(value);
        validateMethod({ ...copy(), [field]: value });
      }),
    );
  });
});
