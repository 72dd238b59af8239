import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../simulation/index.ts';
import {
  bilateralIndex,
  bilateralUse,
  dynamicStrengthIndex,
  forceVelocityProfile,
  pushOffOf,
  stretchUse,
} from './index.ts';

const value = <T>(
  outcome: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: string },
): T => {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

describe('dynamic strength index', () => {
  // JP-11 of the methods reference (jumps-and-plates.md 9.1).
  it.each([
    [1500, 0.75, 'balanced'],
    [1100, 0.55, 'ballistic'],
    [1700, 0.85, 'strength'],
  ])('%d N over 2000 N is %d, %s', (jump, index, emphasis) => {
    expect(value(dynamicStrengthIndex({ value: jump }, { value: 2000 }))).toMatchObject({ value: index, emphasis });
  });

  it('propagates independent errors and is undecided near a limit', () => {
    // CV 3 % and 4 % make 5 %.
    const wide = value(dynamicStrengthIndex({ value: 1560, error: 46.8 }, { value: 2000, error: 80 }));
    expect(wide.error).toBeCloseTo(0.78 * 0.05, 12);
    expect(wide.interval?.high).toBeCloseTo(0.78 + 1.959964 * 0.039, 6);
    expect(wide).toMatchObject({ emphasis: 'undecided', because: 'interval-crosses' });
    const sure = value(dynamicStrengthIndex({ value: 1400, error: 10 }, { value: 2000, error: 20 }));
    expect(sure.emphasis).toBe('balanced');
  });

  it('is undecided when the isometric pull was not the usual one', () => {
    const low = dynamicStrengthIndex({ value: 1400, error: 10 }, { value: 2000, error: 20 }, 2100);
    expect(value(low)).toMatchObject({ emphasis: 'undecided', because: 'isometric-low' });
    expect(value(dynamicStrengthIndex({ value: 1400, error: 10 }, { value: 2000, error: 20 }, 2030)).emphasis).toBe(
      'balanced',
    );
    // How far below is too far is not known without an error.
    expect(value(dynamicStrengthIndex({ value: 1400 }, { value: 2000 }, 2001)).emphasis).toBe('balanced');
    expect(dynamicStrengthIndex({ value: 0 }, { value: 2000 })).toMatchObject({ reason: 'not-positive' });
  });
});

describe('what a countermovement and a second leg add', () => {
  it('ratio, augmentation and difference (JP-12)', () => {
    const use = value(stretchUse({ value: 38 }, { value: 35 }));
    expect(use.ratio).toBeCloseTo(1.085714, 5);
    expect(use.augmentation).toBeCloseTo(8.5714, 3);
    expect(use.difference).toBe(3);
    expect(use.error).toBeUndefined();
    expect(stretchUse({ value: 38 }, { value: 0 })).toMatchObject({ reason: 'not-positive' });
  });

  it('says a side of 1 only where the interval lies beyond it', () => {
    // CV 3 % and 4 % make 5 %: 1.05 +- 0.103 holds 1, 1.2 +- 0.118 does not.
    const near = value(stretchUse({ value: 42, error: 1.26 }, { value: 40, error: 1.6 }));
    expect(near.error).toBeCloseTo(0.0525, 10);
    expect(near.side).toBe('undecided');
    const far = value(stretchUse({ value: 48, error: 1.44 }, { value: 40, error: 1.6 }));
    expect(far).toMatchObject({ side: 'over' });
    expect(far.interval?.low).toBeCloseTo(1.2 - 1.959964 * 0.06, 6);
    expect(value(stretchUse({ value: 48 }, { value: 40 })).side).toBe('undecided');
  });

  it('the error of a bilateral index is that of draws of all three values', () => {
    const [both, left, right] = [
      { value: 1640, error: 60 },
      { value: 1090, error: 40 },
      { value: 1060, error: 30 },
    ];
    const use = value(bilateralUse(both, left, right));
    expect(use.index).toBeCloseTo(100 * (1640 / 2150 - 1), 12);
    const random = seededRandom(4, 1);
    const draw = ({ value, error }: { value: number; error: number }) => value + error * random.gaussian();
    const drawn = Array.from({ length: 40_000 }, () => 100 * (draw(both) / (draw(left) + draw(right)) - 1));
    const mean = drawn.reduce((a, b) => a + b) / drawn.length;
    const sd = Math.sqrt(drawn.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (drawn.length - 1));
    expect(Math.abs(sd / (use.error ?? 0) - 1)).toBeLessThan(0.02);
    expect(use.side).toBe('under');
    expect(value(bilateralUse({ value: 2100, error: 60 }, left, right)).side).toBe('undecided');
    expect(value(bilateralUse({ value: 2100 }, left, right))).toMatchObject({ side: 'undecided' });
    expect(bilateralUse(both, left, { value: 0 })).toMatchObject({ reason: 'not-positive' });
  });

  it('a bilateral deficit is negative', () => {
    expect(value(bilateralIndex(36, 20, 20))).toBeCloseTo(-10, 12);
    expect(value(bilateralIndex(42, 20, 20))).toBeCloseTo(5, 12);
    expect(bilateralIndex(36, 0, 0)).toMatchObject({ reason: 'not-positive' });
  });
});

describe('force and velocity of loaded jumps', () => {
  it('push-off of a jump (JP-08)', () => {
    const push = pushOffOf(75, 0.35, 0.4, 9.81);
    expect(push.force).toBeCloseTo(1379.53125, 5);
    expect(push.velocity).toBeCloseTo(1.310248068, 5);
    expect(push.power).toBeCloseTo(1807.528155, 5);
  });

  it('a profile through points of a known line gives the line', () => {
    const pushes = [0.6, 0.8, 1, 1.2, 1.4].map((velocity) => ({ velocity, force: 2800 - 1000 * velocity }));
    const profile = value(forceVelocityProfile(pushes));
    expect(profile.f0).toBeCloseTo(2800, 8);
    expect(profile.v0).toBeCloseTo(2.8, 10);
    expect(profile.powerMax).toBeCloseTo(1960, 8);
    expect(profile.accepted).toBe(true);
  });

  it('intervals hold the truth about as often as they say', () => {
    const random = seededRandom(11, 1);
    const runs = 2000;
    const held = { f0: 0, v0: 0, powerMax: 0 };
    const truth = { f0: 3000, v0: 3, powerMax: 2250 };
    for (let i = 0; i < runs; i++) {
      const pushes = [0.8, 1, 1.2, 1.4, 1.6].map((velocity) => ({
        velocity,
        force: 3000 - 1000 * velocity + 20 * random.gaussian(),
      }));
      const { intervals } = value(forceVelocityProfile(pushes));
      for (const key of ['f0', 'v0', 'powerMax'] as const)
        if (intervals[key].low <= truth[key] && truth[key] <= intervals[key].high) held[key]++;
    }
    for (const key of ['f0', 'v0', 'powerMax'] as const) expect(Math.abs(held[key] / runs - 0.95)).toBeLessThan(0.02);
  });

  it('needs four loads and a force that falls', () => {
    const rising = [1, 2, 3, 4].map((velocity) => ({ velocity, force: 100 * velocity }));
    expect(forceVelocityProfile(rising)).toMatchObject({ reason: 'no-fit' });
    expect(forceVelocityProfile(rising.slice(1))).toMatchObject({ reason: 'too-few-values' });
    const scattered = [0.6, 0.8, 1, 1.2].map((velocity, i) => ({
      velocity,
      force: 2800 - 1000 * velocity + (i % 2) * 300,
    }));
    const loose = forceVelocityProfile(scattered);
    expect(loose.ok ? loose.value.accepted : undefined).toBe(false);
  });
});
