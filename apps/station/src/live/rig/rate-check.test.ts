import type { MonotonicNanoseconds } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { RateCheck } from './rate-check.ts';
import { SampleTime } from './sample-time.ts';

/** Arrivals of three seconds at a rate. */
function running(rate: number): SampleTime {
  const time = new SampleTime(1000);
  const count = rate / 50;
  for (let i = 0; i < 150; i++)
    time.samples({ first: i * count, count, at: BigInt(i * 20_000_000) as MonotonicNanoseconds });
  return time;
}

describe('the rate after waking up', () => {
  it('is the same or another, told once', () => {
    const check = new RateCheck();
    check.begin(1000);
    expect(check.judge(undefined)).toBeUndefined();
    expect(check.judge(running(1200))).toBe(false);
    expect(check.judge(running(1200))).toBeUndefined();
    expect(check.judge(running(1000))).toBe(true);
    expect(check.judge(running(1000))).toBeUndefined();
  });
  it('keeps nobody waiting where nothing had been seen before: plates may play faster than they promise', () => {
    const check = new RateCheck();
    check.begin(undefined);
    expect(check.judge(running(10_000))).toBe(true);
    expect(check.judge(running(10_000))).toBeUndefined();
  });
});
