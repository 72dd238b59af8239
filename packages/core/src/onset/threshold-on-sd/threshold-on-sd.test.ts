import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../../test/onset-input.ts';
import { fiveSd, fiveSdFloor, threeSd } from './threshold-on-sd.ts';

// By hand: 100, 102 in turn over 20 samples has mean 101 and SD sqrt(20 / 19) = 1.025978.
const standing = Array.from({ length: 20 }, (_, i) => 100 + 2 * (i % 2));
const curve = [...standing, 103, 104, 105, 106, 107, 112, 150, 200, 300, 400];
const sd = Math.sqrt(20 / 19);

describe('thresholds on the SD', () => {
  it('put the onset one sample after the last one at or below B + k S', () => {
    const five = fiveSd.find(onsetInput(curve, 20, 250));
    expect(five).toMatchObject({ ok: true, value: { index: 24, rule: 'five-sd', thresholdUnit: 'N' } });
    expect(five.ok && five.value.threshold).toBeCloseTo(101 + 5 * sd, 12);
    expect(five.ok && five.value.search).toEqual({ start: 0, end: 28 });
    expect(threeSd.find(onsetInput(curve, 20, 250))).toMatchObject({ ok: true, value: { index: 22 } });
  });

  it('have a floor of 10 N, dropped without body weight', () => {
    expect(fiveSdFloor.find(onsetInput(curve, 20, 250))).toMatchObject({
      ok: true,
      value: { index: 25, threshold: 111 },
    });
    const weightless = fiveSdFloor.find(onsetInput(curve, 20, 250, { weighted: false }));
    expect(weightless).toMatchObject({ ok: true, value: { index: 24 } });
  });

  it('take a sample exactly at the threshold for still before the onset', () => {
    const flat = [...Array.from({ length: 20 }, () => 100), 100, 101, 200, 300];
    expect(fiveSd.find(onsetInput(flat, 20, 250))).toMatchObject({ ok: true, value: { index: 21, threshold: 100 } });
  });

  it('return reasons', () => {
    expect(fiveSd.find(onsetInput(curve, 20, 101 + 5 * sd))).toEqual({ ok: false, reason: 'threshold-too-high' });
    const above = onsetInput(curve, 20, 250, { baseline: { start: 24, end: 27, mean: 100, sd: 1 } });
    expect(fiveSd.find(above)).toEqual({ ok: false, reason: 'onset-not-found' });
    const torn = onsetInput(curve, 20, 250);
    const forces = { ...torn.forces, gaps: { filled: [], open: [{ start: 22, end: 30 }] } };
    expect(fiveSd.find({ ...torn, forces })).toEqual({ ok: false, reason: 'gap-in-interval' });
  });
});
