import { describe, expect, it } from 'vitest';
import { clamped, following, panned, zoomed } from './view.ts';

const whole = { from: 0, to: 10 };

describe('view', () => {
  it('keeps the instant under the pointer when zooming', () => {
    const view = zoomed({ from: 2, to: 6 }, 0.5, 3);
    expect(view).toEqual({ from: 2.5, to: 4.5 });
    expect((3 - view.from) / (view.to - view.from)).toBeCloseTo((3 - 2) / 4, 12);
  });
  it('stays inside the recording and keeps its length', () => {
    expect(clamped({ from: -1, to: 3 }, whole, 0.01)).toEqual({ from: 0, to: 4 });
    expect(clamped({ from: 9, to: 13 }, whole, 0.01)).toEqual({ from: 6, to: 10 });
    expect(clamped({ from: -5, to: 50 }, whole, 0.01)).toEqual(whole);
    expect(clamped({ from: 4, to: 4 }, whole, 0.01).to).toBeCloseTo(4.01, 12);
  });
  it('pans by a share and follows a cursor only when it leaves', () => {
    expect(panned({ from: 2, to: 6 }, 0.25)).toEqual({ from: 3, to: 7 });
    const view = { from: 2, to: 6 };
    expect(following(view, 4)).toBe(view);
    expect(following(view, 7).to).toBeCloseTo(7.4, 12);
    expect(following(view, 1).from).toBeCloseTo(0.6, 12);
  });
});
