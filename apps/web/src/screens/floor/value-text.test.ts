import { expect, it } from 'vitest';
import { amountText, valueText } from './value-text.ts';

it('says heights in centimetres, times on the ground in milliseconds, and forces as they are', () => {
  expect(valueText(0.3824, 'm')).toBe('38.2\u00a0cm');
  expect(valueText(0.2147, 's')).toBe('215\u00a0ms');
  expect(valueText(0.4871, 'm/s')).toBe('0.49\u00a0m/s');
  expect(amountText(0.021, 'm')).toBe('2.1\u00a0cm');
  expect(amountText(41.3, 'N')).toBe('41\u00a0N');
});
