import { describe, expect, it } from 'vitest';
import { methodReference, methodRegistry } from '../../methods/index.ts';
import { usualProtocol, validateProtocol } from '../../protocols/index.ts';
import { jumpCheckRegistry } from '../checks/index.ts';
import { jumpMetricRegistry } from '../metrics/index.ts';
import { defaultJumpMethod, jumpMethodRegistry } from './built-in.ts';
import { deriveJumpMethod, jumpMethodOfProtocol } from './derive.ts';
import { isJumpMethod } from './jump-method.ts';
import { jumpMethodSentences } from './sentences.ts';

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

  it('are said in sentences, each its own rule of take-off', () => {
    const said = jumpMethodRegistry.all.map(({ method }) => jumpMethodSentences(method));
    for (const sentence of said.flat()) expect(sentence).toMatch(/^\S.+\.$/u);
    expect(said.map((own) => own.find((one) => one.startsWith('Take-off'))?.match(/passes (.+?);/u)?.[1])).toEqual([
      'five SD of the force in the middle of the flight',
      '10 N',
      '20 N',
      '30 N',
      'five SD of the force in the middle of the flight',
    ]);
    const boxes = said.map((own) => own.filter((one) => one.startsWith('A drop jump begins on a box')).length);
    expect(boxes).toEqual([0, 0, 0, 0, 1]);
  });

  it('cannot be changed, and keep their hashes', () => {
    expect(() => Object.assign(defaultJumpMethod.flight, { rule: 'fixed-10' })).toThrow(TypeError);
    // A released method never changes: a new number is a new version with a hash of its own.
    expect(
      Object.fromEntries(jumpMethodRegistry.all.map(({ id, method }) => [id, methodReference(method).sha256])),
    ).toMatchInlineSnapshot(`
      {
        "jumps": "8f0d68ec56792c2f0a8855a56bf15d98e1c9a9a60831158dbcc1a6941ebdb95e",
        "jumps-10": "746df67a7d01849b3b9113b1ba1aabaa33d1c3bc5839a82d84e46a9043d15eb1",
        "jumps-20": "9b5e5e42156d6b503ae3afa13025d4de4a6979d5104e801e241aa685391a408d",
        "jumps-30": "24fa5bc5781003d6e386f14955993d6f1f508278756bcf350f23adcd2b8556c0",
        "jumps-box-plate": "7f8542a5d9967c3219fdba477a44f5a1066bd920c559e456074c269132b421ab",
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
