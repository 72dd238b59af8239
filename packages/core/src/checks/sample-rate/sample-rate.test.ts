import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

const at = (sampleRate: number) =>
  judge('sample_rate', trialOf({ total: [800, 800, 2000], sampleRate, halfRise: 1, baseline: { start: 0, end: 2 } }));

it('warns below 1000 Hz and fails below 500 Hz', () => {
  expect(at(1000)).toMatchObject({ status: 'pass', value: 1000, limit: 1000, unit: 'Hz' });
  expect(at(999)).toMatchObject({ status: 'warn', limit: 1000 });
  expect(at(500)).toMatchObject({ status: 'warn', limit: 1000 });
  expect(at(499)).toMatchObject({ status: 'fail', limit: 500 });
});
