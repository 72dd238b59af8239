import { describe, expect, it } from 'vitest';
import { methodReference, methodRegistry } from '../../methods/index.ts';
import { usualProtocol, validateProtocol } from '../../protocols/index.ts';
import { jumpCheckRegistry } from '../checks/index.ts';
import { jumpMetricRegistry } from '../metrics/index.ts';
import { defaultJumpMethod, jumpMethodRegistry } from './built-in.ts';
import { deriveJumpMethod, jumpMethodOfProtocol } from './derive.ts';
import { isJumpMethod } from './jump-method.ts';

describe('the built-in jump methods', () => {
  it('name every metric and check in its version, with its usual limits', () => {
    for (const { method } of jumpMethodRegistry.all) {
      expect(Object.keys(method.metrics)).toEqual(jumpMetricRegistry.all.map(({ id }) => id));
      expect(Object.keys(method.checks)).toEqual(jumpCheckRegistry.all.map(({ id }) => id));
      for (const { id, version } of jumpMetricRegistry.all) expect(method.metrics[id]).toBe(version);
      for (const { id, version, defaultLimits } of jumpCheckRegistry.all)
        expect(method.checks[id]).toEqual({ version, limits: defaultLimits });
      expect(isJumpMethod(method)).toBe(true);
    }
    for (const { method } of methodRegistry.all) expect(isJumpMethod(method)).toBe(false);
  });

  it('cannot be changed, and keep their hashes', () => {
    expect(() => Object.assign(defaultJumpMethod.flight, { rule: 'fixed-10' })).toThrow(TypeError);
    // A released method never changes: a new number is a new version with a hash of its own.
    expect(
      Object.fromEntries(jumpMethodRegistry.all.map(({ id, method }) => [id, methodReference(method).sha256])),
    ).toMatchInlineSnapshot(`
      {
        "jumps": "46d3fc4f9ecd622dfc531cca35128c635dce1ad377400bd6b9b2748095643ed5",
        "jumps-10": "a1b70354e6f59717169020f096aea49ae67002ea6117244f4ddcf913ce9176a4",
        "jumps-20": "2c1008ac4bc34df9fc8a925b5add9c0155a51f2e0ca2c8bc52aba0ef95ef759d",
        "jumps-30": "4fb3c2e83c122b4662881d8ada5ec5e0dead5d3e47ca04670dc1431c08e9448f",
      }
    `);
  });
});

describe('a derived jump method', () => {
  it('says what was changed and has a hash of its own', () => {
    const made = deriveJumpMethod(defaultJumpMethod, {
      'flight.rule': 'fixed-20',
      'checks.weighing_steady.limits.fail': 2,
    });
    expect(made.flight.rule).toBe('fixed-20');
    expect(made.checks.weighing_steady?.limits.fail).toBe(2);
    expect(made.derivedFrom).toMatchObject({ ...methodReference(defaultJumpMethod) });
    expect(methodReference(made).sha256).not.toBe(methodReference(defaultJumpMethod).sha256);
    expect(deriveJumpMethod(defaultJumpMethod, {})).toBe(defaultJumpMethod);
  });

  it.each([
    ['flight.rule', 'fixed-25'],
    ['onset.rule', 'five-sd'],
    ['checks.countermovement', 'off'],
    ['checks.jump_gap.limits.run', 3],
    ['weighing.window', 2],
  ])('has no %s of %s', (path, value) => {
    expect(() => deriveJumpMethod(defaultJumpMethod, { [path]: value })).toThrow(RangeError);
  });

  it('follows the checks of a protocol, which are those of jumps', () => {
    const usual = usualProtocol('squat-jump');
    expect(jumpMethodOfProtocol(defaultJumpMethod, usual)).toBe(defaultJumpMethod);
    const own = {
      ...usual,
      checks: { squat_jump_dip: { use: true, limits: { fail: 8 } }, jump_early: { use: false } },
    };
    expect(validateProtocol(own)).toMatchObject({ ok: true });
    const made = jumpMethodOfProtocol(defaultJumpMethod, own);
    expect(made.checks.squat_jump_dip?.limits).toEqual({ warn: 5, fail: 8 });
    expect(made.checks.jump_early).toBeUndefined();
    const pull = { ...usual, checks: { countermovement: { use: false } } };
    expect(validateProtocol(pull)).toMatchObject({ ok: false, faults: [{ code: 'protocol-check-unknown' }] });
  });
});
