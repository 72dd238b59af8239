import { ApiProblem } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { tryTrialAgain } from './queries.ts';

const refusal = (code: string, status: number) =>
  new ApiProblem({ type: 'about:blank', title: '', status, code, detail: '', next: '' });
/** How often it is tried again before the screen says what is wrong. */
const again = (error: unknown) => {
  let failures = 0;
  while (failures < 1000 && tryTrialAgain(failures, error)) failures++;
  return failures;
};

describe('a trial', () => {
  it('that is not there yet is waited for, but not for ever', () => {
    expect(again(refusal('not-found', 404))).toBe(14);
  });
  it('that fails for another reason is tried once more, as everything is', () => {
    for (const error of [refusal('lab-missing', 404), refusal('role-not-enough', 403), new TypeError('no network')])
      expect(again(error)).toBe(1);
  });
});
