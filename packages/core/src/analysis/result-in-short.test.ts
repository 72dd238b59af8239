import { expect, it } from 'vitest';
import { defaultMethod } from '../methods/index.ts';
import type { TrialResult } from './result.ts';
import { inShort } from './result-in-short.ts';
import { stopReason } from './stop-rule.ts';
import { setState } from './trial-set.ts';

const result = (peak: number) =>
  ({
    test: 'imtp',
    verdict: 'counts',
    metrics: Object.fromEntries(
      ['peak_force', 'rfd_0_200', 'force_100', 'impulse_200'].map((id) => [
        id,
        { value: peak, unit: 'N', evidence: {} },
      ]),
    ),
    checks: { tremor: { status: 'pass', unit: 'N' } },
    events: { start: 1, end: 2 },
    bodyWeight: { ok: false, reason: 'no-quiet-window' },
    spread: { peak_force: {} },
    onsets: { standard: {} },
  }) as unknown as TrialResult;

it('keeps what ranks an effort and leaves the rest out', () => {
  const short = inShort(result(3000));
  expect(Object.keys(short.metrics)).toEqual(['peak_force', 'rfd_0_200']);
  expect(Object.keys(short).sort()).toEqual(['bodyWeight', 'checks', 'events', 'metrics', 'test', 'verdict']);
  expect(inShort(short)).toEqual(short);
});

it('changes nothing of where a set stands and when it is stopped', () => {
  const whole = [3000, 2700, 2000].map((peak) => ({ result: result(peak), maximal: true }));
  const short = whole.map((trial) => ({ ...trial, result: inShort(trial.result) }));
  expect(setState(short, defaultMethod.set)).toEqual(setState(whole, defaultMethod.set));
  const rules = { rejectedInARow: 3, fall: 0.2, closes: false };
  expect(stopReason(short, rules)).toBe('peak-has-fallen');
  expect(stopReason(whole, rules)).toBe('peak-has-fallen');
});
