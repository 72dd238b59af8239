import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/** Baseline of SD `sd` about 800 N; peak 2800 N. */
const trial = (sd: number) => {
  const half = sd * Math.sqrt(999 / 1000);
  const total = Array.from({ length: 1100 }, (_, i) => (i < 1000 ? 800 + (i % 2 ? half : -half) : 2800));
  return trialOf({ total, halfRise: 1000, baseline: { start: 0, end: 1000 } });
};

it('is five times the noise as a share of the rise', () => {
  expect(judge('noise_for_rfd', trial(19.9)).value).toBeCloseTo(4.975, 9);
  expect(judge('noise_for_rfd', trial(19.9))).toMatchObject({ status: 'pass', limit: 5, unit: '%' });
  expect(judge('noise_for_rfd', trial(20.1)).status).toBe('warn');
});

it('needs a baseline and a rise', () => {
  expect(
    judge('noise_for_rfd', trialOf({ total: [800, 800, 900], halfRise: 1, baseline: 'no-quiet-window' })).notJudged,
  ).toBe('no-baseline');
  expect(
    judge('noise_for_rfd', trialOf({ total: [800, 800, 700], halfRise: 1, baseline: { start: 0, end: 2 } })).notJudged,
  ).toBe('no-effort');
});
