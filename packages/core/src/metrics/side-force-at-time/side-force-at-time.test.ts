import { expect, it } from 'vitest';
import { metricValue, reasonOf } from '../../../test/read.ts';
import { sampled, trialOf } from '../../../test/trial-of.ts';

it('reads each side between samples', () => {
  // Closed form: two lines. 90 ms at 512 Hz are 46.08 samples.
  const sampleRate = 512;
  const left = sampled(sampleRate, 0, 2, (t) => 400 + 700 * t);
  const right = sampled(sampleRate, 0, 2, (t) => 420 + 300 * t);
  const trial = trialOf({ sampleRate, left, right, halfRise: 600, onset: 256 });
  expect(metricValue('left_force_at_90', trial)).toBeCloseTo(400 + 700 * 0.59, 9);
  expect(metricValue('right_force_at_250', trial)).toBeCloseTo(420 + 300 * 0.75, 9);
  expect(reasonOf('left_force_at_50', trialOf({ sampleRate, left, halfRise: 600, onset: 256 }))).toBe('one-side-only');
});
