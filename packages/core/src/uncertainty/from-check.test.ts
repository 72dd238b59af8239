import { describe, expect, it } from 'vitest';
import { defaultLimits, gravityEntered, growthBeyond, judgeCheck, type LoadReading } from '../rig/index.ts';
import { checkedRigOf } from './from-check.ts';

/** A made-up check of two plates, 0 to 1000 N in three series; the right one reads 1.2 % too much. */
const readings = (['left', 'right'] as const).flatMap((plate) =>
  [1, 2, 3].flatMap((series) =>
    (['up', 'down'] as const).flatMap((direction) =>
      [0, 250, 500, 750, 1000].map(
        (load): LoadReading => ({
          ...{ plate, series, direction, spot: 'centre', load, loadUncertainty: load * 1e-4, origin: 'samples' },
          reading: load * (plate === 'right' ? 1.012 : 1) + 0.3 * ((series + load / 250) % 2),
        }),
      ),
    ),
  ),
);
const result = judgeCheck({
  ...{ schema: 'sthene.rig-check/1', plates: ['left', 'right'], gravity: gravityEntered(9.81, 1e-5), airDensity: 1.2 },
  ...{ masses: [], limits: defaultLimits, corrected: [], readings, rest: [], taps: [], balance: [], cell: [] },
});

describe('what a check tells of a trial', () => {
  const rig = checkedRigOf(result, false);
  const corrected = checkedRigOf(result, true);

  it('shares masses and gravity, and leaves each plate its own gain until that is put right', () => {
    const { masses = 0, gravity = 0, slope = 0, uncorrected = 0 } = result.uncertainty?.rig.parts ?? {};
    expect(uncorrected).toBeCloseTo(0.012 / Math.sqrt(3), 4);
    expect(rig?.gain).toBeCloseTo(Math.hypot(masses, gravity), 15);
    expect(rig?.plateGain).toBeCloseTo(Math.hypot(slope, uncorrected), 15);
    expect(corrected?.plateGain).toBeCloseTo(slope, 15);
  });

  it('is checked as far as every plate was, and grows beyond at least as the check says, up to twice that force', () => {
    expect(rig?.largestForce).toBe(1000);
    const { growth = 0, repeatability = 0, linearity = 0 } = rig ?? {};
    const additive = Math.hypot(repeatability, linearity);
    for (const force of [1100, 1500, 1900, 2000])
      expect(additive + growth * (force - 1000)).toBeGreaterThanOrEqual(additive * growthBeyond(force, 1000) - 1e-9);
  });

  it('says nothing of a check without loads', () => {
    const empty = judgeCheck({
      ...{ schema: 'sthene.rig-check/1', plates: ['left'], gravity: gravityEntered(9.81, 0), airDensity: 1.2 },
      ...{ masses: [], limits: defaultLimits, corrected: [], readings: [], rest: [], taps: [], balance: [], cell: [] },
    });
    expect(checkedRigOf(empty, false)).toBeUndefined();
  });
});
