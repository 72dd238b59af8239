import { expect, it } from 'vitest';
import { exponentialTrial } from '../../../test/exact-curves.ts';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';

it('is W, and W over the g of the site', () => {
  // 3rd CGPM 1901: standard gravity 9.80665 m/s2, so 784.532 N is 80 kg.
  const trial = exponentialTrial(1000, { weight: 784.532, gravity: 9.80665 });
  expect(metricValue('body_weight', trial)).toBe(784.532);
  expect(metricValue('body_mass', trial)).toBeCloseTo(80, 12);
  expect(metricValue('body_mass', exponentialTrial(1000, { weight: 784.532, gravity: 9.78 }))).toBeCloseTo(
    784.532 / 9.78,
    12,
  );
});

it('shows the baseline where W was read from it', () => {
  const evidence = (weightFrom: 'baseline' | 'weighing') =>
    measure('body_weight', exponentialTrial(1000, { weightFrom })).evidence?.interval;
  expect(evidence('baseline')).toEqual({ start: 0, end: 1000 });
  expect(evidence('weighing')).toBeUndefined();
});

it('passes on the reason, and refuses a mass that is not positive', () => {
  expect(reasonOf('body_weight', exponentialTrial(1000, { weight: 'no-quiet-window' }))).toBe('no-quiet-window');
  expect(reasonOf('body_mass', exponentialTrial(1000, { weight: 0 }))).toBe('not-defined');
});
