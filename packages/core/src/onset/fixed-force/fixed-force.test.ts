import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../../test/onset-input.ts';
import { fixedForceRules } from './fixed-force.ts';

// By hand: B = 1000 N, one more newton each sample from index 20 on.
const curve = Array.from({ length: 520 }, (_, i) => 1000 + Math.max(0, i - 19));

describe('fixed force above the baseline', () => {
  it.each([20, 40, 50, 75].map((newtons, at) => [at, newtons] as const))('rule %d: %d N', (at, newtons) => {
    const outcome = fixedForceRules[at]?.find(onsetInput(curve, 20, 1400));
    expect(outcome).toMatchObject({ ok: true, value: { index: 20 + newtons, threshold: 1000 + newtons } });
  });

  it('needs newtons, and a half level above it', () => {
    const input = onsetInput(curve, 20, 1400);
    const torque = { ...input, forces: { ...input.forces, unit: 'N.m' } };
    expect(fixedForceRules[0]?.find(torque)).toEqual({ ok: false, reason: 'not-defined' });
    expect(fixedForceRules[3]?.find(onsetInput(curve, 20, 1075))).toEqual({ ok: false, reason: 'threshold-too-high' });
  });
});
