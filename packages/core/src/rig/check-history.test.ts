import { describe, expect, it } from 'vitest';
import type { UtcInstant } from '../recording/index.ts';
import { checkHistory, defaultLimits, type RigCheckResult } from './index.ts';

const kept = (year: number, verdict: RigCheckResult['verdict'], gain: number, offset: number, noise?: number) => ({
  at: `${year}-03-01T09:00:00.000Z` as UtcInstant,
  document: { plates: ['left'], limits: defaultLimits },
  result: {
    ...{ verdict, correction: [{ plate: 'left', gain, offset }] },
    quantities:
      noise === undefined
        ? []
        : [{ id: 'noise' as const, plate: 'left', value: noise, limit: defaultLimits[9]!, standing: 'pass' as const }],
  },
});

describe('a plate over its checks', () => {
  it('has gain in %, zero and noise in N, oldest first, with the limits of the newest', () => {
    const [left] = checkHistory([kept(2026, 'passes', 1.004, 0.3, 0.7), kept(2024, 'fails', 1.012, -0.4)]);
    expect(left?.points).toEqual([
      { at: '2024-03-01T09:00:00.000Z', gain: expect.closeTo(1.2, 9), zero: -0.4 },
      { at: '2026-03-01T09:00:00.000Z', gain: expect.closeTo(0.4, 9), zero: 0.3, noise: 0.7 },
    ]);
    expect(left?.limits).toEqual({ gain: 0.5, zero: 1, noise: 2 });
  });

  it('takes no line from a check without a verdict, but its noise', () => {
    const [left] = checkHistory([kept(2025, 'incomplete', 1.3, 9, 0.6), kept(2026, 'incomplete', 1.3, 9)]);
    expect(left?.points).toEqual([{ at: '2025-03-01T09:00:00.000Z', noise: 0.6 }]);
    expect(checkHistory([])).toEqual([]);
  });
});
