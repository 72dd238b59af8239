import { expect, it } from 'vitest';
import { exponentialTrial } from '../../../test/exact-curves.ts';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

// isometric-and-statistics.md 9.13 (calc): peak force 3000 N, mass 80 kg.
const total = [...Array.from({ length: 100 }, () => 784.532), 1500, 2900, 3000, 2950];
const trial = (exponent?: number) =>
  trialOf({ total, halfRise: 100, weight: 784.532, ...(exponent === undefined ? {} : { exponent }) });

it('is the largest force, less weight, and per kilogram', () => {
  expect(metricValue('peak_force', trial())).toBe(3000);
  expect(metricValue('peak_force_net', trial())).toBeCloseTo(2215.468, 10);
  expect(metricValue('peak_force_relative', trial())).toBeCloseTo(37.5, 10);
  expect(metricValue('peak_force_net_relative', trial())).toBeCloseTo(27.69335, 10);
});

it('scales to body size with the exponent it reports', () => {
  expect(Math.abs(metricValue('peak_force_allometric', trial()) - 161.582602)).toBeLessThan(1e-6);
  expect(measure('peak_force_allometric', trial())).toMatchObject({ unit: '1', exponent: 2 / 3 });
  expect(metricValue('peak_force_allometric', trial(1))).toBeCloseTo(37.5, 10);
});

// SC-01, worked by hand: force over mass to the power of the exponent (Jaric 2002, Sports Med 32:615-631).
it.each([
  [3000, 90, 0.67, 147.156271],
  [2500, 70, 0.67, 145.119015],
  [3000, 90, 1, 33.333333],
  [2500, 70, 1, 35.714286],
])('SC-01: %d N at %d kg with the exponent %d', (force, mass, exponent, wanted) => {
  const weight = mass * 9.80665;
  const pull = [...Array.from({ length: 100 }, () => weight), weight + 1, force, weight];
  const scaled = trialOf({ total: pull, halfRise: 100, weight, exponent });
  expect(Math.abs(metricValue('peak_force_allometric', scaled) - wanted)).toBeLessThan(1e-5);
});

it('is not known when samples of the effort are missing', () => {
  expect(reasonOf('peak_force', exponentialTrial(1000, { gaps: { open: [{ start: 3000, end: 3010 }] } }))).toBe(
    'gap-in-interval',
  );
  expect(
    reasonOf('peak_force', exponentialTrial(1000, { gaps: { open: [{ start: 500, end: 510 }] } })),
  ).toBeUndefined();
  expect(
    reasonOf('peak_force', exponentialTrial(1000, { gaps: { filled: [{ start: 3000, end: 3004 }] } })),
  ).toBeUndefined();
});
