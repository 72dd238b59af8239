import { expect, it } from 'vitest';
import { halfOf, planOf } from './plans.ts';

const plan = (trials: number, sessions: number, confirmable: number) => ({ trials, sessions, confirmable, error: 1 });
const plans = [plan(1, 1, 10), plan(2, 1, 8), plan(4, 1, 5.5), plan(1, 2, 5), plan(2, 2, 4), plan(1, 3, 3.9)];

it('halves with the fewest efforts, and of equals with the fewest sessions', () => {
  expect(halfOf(plans, plan(1, 1, 10))).toEqual(plan(1, 2, 5));
  expect(halfOf(plans, plan(2, 1, 8))).toEqual(plan(1, 3, 3.9));
  expect(halfOf(plans, plan(1, 3, 3.9))).toBeUndefined();
  expect(planOf(plans, 4, 1)?.confirmable).toBe(5.5);
  expect(planOf(plans, 5, 1)).toBeUndefined();
});
