import { describe, expect, it } from 'vitest';
import type { CheckResult, CheckStatus } from '../checks/check.ts';
import { have, lack } from '../outcome.ts';
import type { Onset } from './events.ts';
import { verdictOf } from './verdict.ts';

const checks = (...statuses: CheckStatus[]): Record<string, CheckResult> =>
  Object.fromEntries(statuses.map((status, i) => [`check_${i}`, { status, unit: 'N' }]));
const onset = have({} as Onset);

describe('verdict', () => {
  it.each([
    ['counts', ['pass', 'not-judged']],
    ['counts', []],
    ['look-again', ['pass', 'warn']],
    ['repeat', ['warn', 'fail', 'pass']],
  ] as const)('%s for %j', (verdict, statuses) => {
    expect(verdictOf(checks(...statuses), onset, undefined)).toBe(verdict);
  });

  it('looks again without an onset, and repeats without an effort', () => {
    expect(verdictOf(checks('pass'), lack('onset-not-found'), undefined)).toBe('look-again');
    expect(verdictOf(checks('fail'), lack('onset-not-found'), undefined)).toBe('repeat');
    expect(verdictOf(checks('not-judged'), lack('no-effort'), 'no-effort')).toBe('repeat');
  });
});
