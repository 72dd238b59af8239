import { expect, it } from 'vitest';
import { metricValue, reasonOf } from '../../../test/read.ts';
import { sampled, trialOf } from '../../../test/trial-of.ts';

it('integrates each side', () => {
  // Closed form: the integral of a + b t from 0.5 s over T is (a + b (0.5 + T / 2)) T.
  const sampleRate = 600;
  const left = sampled(sampleRate, 0, 2, (t) => 400 + 700 * t);
  const right = sampled(sampleRate, 0, 2, (t) => 420 + 300 * t);
  const trial = trialOf({ sampleRate, left, right, halfRise: 700, onset: 300 });
  expect(metricValue('left_impulse_0_150', trial)).toBeCloseTo((400 + 700 * 0.575) * 0.15, 9);
  expect(metricValue('right_impulse_0_300', trial)).toBeCloseTo((420 + 300 * 0.65) * 0.3, 9);
  expect(reasonOf('right_impulse_0_100', trialOf({ sampleRate, right, halfRise: 700, onset: 300 }))).toBe(
    'one-side-only',
  );
});
