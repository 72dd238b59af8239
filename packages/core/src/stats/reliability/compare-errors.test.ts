import { expect, it } from 'vitest';
import { ratioOfErrors } from './index.ts';

it('compares two errors as R compares two variances', () => {
  // R 4.2.2, var.test(extra ~ group, data = sleep): Student's sleep data, 2026-11-27.
  const found = ratioOfErrors({ value: 1.7890096577591625, df: 9 }, { value: 2.002248735796829, df: 9 });
  expect(found.f).toBeCloseTo(0.798342617998392, 12);
  expect(found.ratio.low ** 2).toBeCloseTo(0.198297013510539, 9);
  expect(found.ratio.high ** 2).toBeCloseTo(3.214122716369865, 9);
  expect(found.p).toBeCloseTo(0.742719931726045, 10);
  const other = ratioOfErrors({ value: 2.002248735796829, df: 9 }, { value: 1.7890096577591625, df: 9 });
  expect(other.p).toBeCloseTo(found.p, 12);
});
