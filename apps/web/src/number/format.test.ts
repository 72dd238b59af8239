import { describe, expect, it } from 'vitest';
import { decimalsFor, numberText, quantityText, signedText, unitText } from './format.ts';

describe('numberText', () => {
  it('writes the same on every machine: point, true minus, narrow blanks from five digits on', () => {
    expect(numberText(2868.4, 0)).toBe('2868');
    expect(numberText(12345.6, 0)).toBe('12\u202f346');
    expect(numberText(1234567.891, 2)).toBe('1\u202f234\u202f567.89');
    expect(numberText(-59.44, 1)).toBe('\u221259.4');
    expect(numberText(-0.04, 1)).toBe('0.0');
    expect(numberText(1.25, 2, ',')).toBe('1,25');
  });
  it('signs what has a direction, and never zero', () => {
    expect(signedText(1.64, 1)).toBe('+1.6');
    expect(signedText(-1.64, 1)).toBe('\u22121.6');
    expect(signedText(0.04, 1)).toBe('0.0');
  });
});

describe('decimalsFor', () => {
  it('follows the resolution of the measurement', () => {
    expect(decimalsFor('s', 1.2, { sampleRate: 1000 })).toBe(3);
    expect(decimalsFor('s', 1.2, { sampleRate: 2000 })).toBe(4);
    expect(decimalsFor('s', 1.2, { sampleRate: 100 })).toBe(2);
    expect(decimalsFor('N', 2868, { sampleRate: 1000, noise: 3.1 })).toBe(0);
    expect(decimalsFor('N', 2868, { sampleRate: 1000, noise: 0.2 })).toBe(1);
    expect(decimalsFor('N', 3.14, { sampleRate: 1000, noise: 3.1 })).toBe(1);
    expect(decimalsFor('N/s', 7550.4, { sampleRate: 1000 })).toBe(0);
  });
  it('gives unknown units three digits that mean something', () => {
    expect(decimalsFor('1', 0.01234, { sampleRate: 1000 })).toBe(4);
    expect(decimalsFor('N.m', 231.4, { sampleRate: 1000 })).toBe(0);
    expect([0, 0.0493, -0.6, 23].map((value) => decimalsFor('N.m', value, { sampleRate: 1000 }))).toEqual([2, 2, 2, 1]);
  });
  it('joins value and unit so that they do not part', () => {
    expect(quantityText(288.04, 'N.s', { sampleRate: 1000 })).toBe('288.0\u00a0N\u00b7s');
    expect(quantityText(2, '1', { sampleRate: 1000 })).toBe('2.00');
    expect(unitText('N/kg')).toBe('N/kg');
  });
});
