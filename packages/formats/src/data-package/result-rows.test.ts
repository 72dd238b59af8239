import { describe, expect, it } from 'vitest';
import { packageName, resultRowsOf } from './result-rows.ts';

describe('rows of results', () => {
  it('carry a value with its unit, or the reason with the unit it would have had', () => {
    const metrics = {
      peak_force: { value: 2868.25, unit: 'N', evidence: {} },
      rfd_0_200: { reason: 'onset-not-found' as const },
    };
    expect(resultRowsOf('pull', { metrics })).toEqual([
      { trial: 'pull', metric: 'peak_force', value: 2868.25, unit: 'N', reason: null },
      { trial: 'pull', metric: 'rfd_0_200', value: null, unit: 'N/s', reason: 'onset-not-found' },
    ]);
  });
});

describe('a package name', () => {
  it.each([
    ['Größe 1.CSV', 'gro-e-1.csv'],
    ['../../etc', 'etc'],
    ['---', 'trial-1'],
    ['Results', 'trial-1'],
  ])('of %j is %j', (text, name) => {
    expect(packageName(text, 'trial-1')).toBe(name);
  });
});
