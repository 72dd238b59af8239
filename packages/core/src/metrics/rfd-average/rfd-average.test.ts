import { expect, it } from 'vitest';
import { metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

// Closed form: a line of 2 N a sample from 800 N to its end.
const total = Array.from({ length: 501 }, (_, i) => 800 + 2 * Math.max(0, i - 100));

it('is the slope from onset to peak', () => {
  expect(metricValue('rfd_average', trialOf({ total, halfRise: 300, onset: 100 }))).toBeCloseTo(2000, 9);
  expect(metricValue('rfd_average', trialOf({ total, sampleRate: 600, halfRise: 300, onset: 100.5 }))).toBeCloseTo(
    1200,
    9,
  );
});

it('is not defined when the peak is the onset', () => {
  expect(reasonOf('rfd_average', trialOf({ total, halfRise: 499, onset: 500 }))).toBe('not-defined');
});
