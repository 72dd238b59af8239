import { expect, it } from 'vitest';
import { metricValue, reasonOf } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const total = Array.from({ length: 600 }, (_, i) =>
  i < 300 ? 800 : 800 + 1000 * Math.sin((Math.PI * (i - 300)) / 300),
);

it('is the time from the onset to the first largest sample', () => {
  // The sine of the definition peaks 150 samples after sample 300.
  expect(metricValue('time_to_peak', trialOf({ total, halfRise: 350, onset: 300 }))).toBe(0.15);
  expect(metricValue('time_to_peak', trialOf({ total, sampleRate: 600, halfRise: 350, onset: 302.5 }))).toBeCloseTo(
    147.5 / 600,
    12,
  );
});

it('has no value for an onset placed behind the peak', () => {
  expect(reasonOf('time_to_peak', trialOf({ total, halfRise: 350, onset: 460 }))).toBe('interval-past-end');
});
