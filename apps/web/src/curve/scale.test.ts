import { describe, expect, it } from 'vitest';
import { tickText } from './grid.ts';
import { decimalsOf, linear, multiples, partsOf, stepAtLeast } from './scale.ts';

describe('linear', () => {
  it('maps there and back', () => {
    const scale = linear([2, 6], [56, 856]);
    expect(scale.at(2)).toBe(56);
    expect(scale.at(6)).toBe(856);
    expect(scale.from(scale.at(3.217))).toBeCloseTo(3.217, 12);
  });
  it('survives an empty domain', () => {
    const scale = linear([3, 3], [0, 100]);
    expect(scale.at(3)).toBe(0);
    expect(scale.from(50)).toBe(3);
  });
});

describe('steps', () => {
  it('are the next of 1, 2, 5 times a power of ten', () => {
    expect([0.03, 0.1, 0.11, 0.3, 4, 99, 100, 101].map(stepAtLeast)).toEqual([0.05, 0.1, 0.2, 0.5, 5, 100, 100, 200]);
  });
  it('are cut so that fine lines are round numbers', () => {
    for (const step of [0.1, 0.2, 0.5, 1, 2, 5, 500, 2000]) {
      const fine = Number((step / partsOf(step)).toPrecision(6));
      expect(['1', '5']).toContain(String(fine).replace(/[.0]/g, ''));
    }
  });
  it('give multiples without drift, negative ones too', () => {
    expect(multiples(-0.2, 0.4, 0.1)).toEqual([-0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.4]);
    expect(multiples(1.01, 1.09, 0.1)).toEqual([]);
  });
  it('tell how many decimals they need', () => {
    expect([1000, 1, 0.5, 0.1, 0.02, 0.001].map(decimalsOf)).toEqual([0, 0, 1, 1, 2, 3]);
    expect(tickText(-0.5, 0.5)).toBe('\u22120.5');
  });
});
