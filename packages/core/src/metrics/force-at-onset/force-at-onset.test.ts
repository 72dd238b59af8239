import { expect, it } from 'vitest';
import { measure, metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const total = Array.from({ length: 500 }, (_, i) => 800 + i);

it('is the force at the onset, between samples by a straight line', () => {
  expect(metricValue('force_at_onset', trialOf({ total, halfRise: 250, onset: 200 }))).toBe(1000);
  expect(metricValue('force_at_onset', trialOf({ total, halfRise: 250, onset: 200.25 }))).toBe(1000.25);
});

it('is drawn as one point', () => {
  const { evidence } = measure('force_at_onset', trialOf({ total, halfRise: 250, onset: 200 }));
  expect(evidence?.interval).toEqual({ start: 200, end: 200 });
  expect(evidence?.points).toEqual([{ at: 200, force: 1000, of: 'total' }]);
});

it('has no value behind the end', () => {
  expect(reasonOf('force_at_onset', trialOf({ total, halfRise: 250, end: 300, onset: 301 }))).toBe('interval-past-end');
});
