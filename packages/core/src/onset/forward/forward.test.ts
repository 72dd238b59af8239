import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../../test/onset-input.ts';
import { fiveSd } from '../threshold-on-sd/threshold-on-sd.ts';
import { forwardFiveSd } from './forward-five-sd.ts';

// By hand, at 1000 Hz: 20 samples are 20 ms. A step of `hold` samples at 150 N, back to 100 N, then the rise from index 200.
const curve = (hold: number) =>
  Array.from({ length: 400 }, (_, i) => {
    const noise = i % 2;
    if (i >= 120 && i < 120 + hold) return 150 + noise;
    return 100 + noise + Math.max(0, i - 199) * 10;
  });

describe('first held crossing', () => {
  it('takes an early step that lasts 20 ms, where a backward search passes over it', () => {
    expect(forwardFiveSd.find(onsetInput(curve(20), 100, 1000))).toMatchObject({ ok: true, value: { index: 120 } });
    expect(fiveSd.find(onsetInput(curve(20), 100, 1000))).toMatchObject({ ok: true, value: { index: 200 } });
  });

  it('passes over one that lasts 19 ms', () => {
    expect(forwardFiveSd.find(onsetInput(curve(19), 100, 1000))).toMatchObject({ ok: true, value: { index: 200 } });
  });

  it('returns reasons', () => {
    expect(forwardFiveSd.find(onsetInput(curve(0), 100, 102))).toEqual({ ok: false, reason: 'threshold-too-high' });
    const short = onsetInput(curve(0).slice(0, 215), 100, 200);
    expect(forwardFiveSd.find(short)).toEqual({ ok: false, reason: 'onset-not-found' });
  });
});
