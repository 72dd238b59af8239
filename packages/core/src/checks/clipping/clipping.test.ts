import { describe, expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { type TrialOptions, trialOf } from '../../../test/trial-of.ts';

/** 400 N standing, then a hilly pull of up to 1500 N; values of single samples can be replaced. */
const hills = (replace: Record<number, number> = {}) =>
  Float64Array.from(
    { length: 2000 },
    (_, i) => replace[i] ?? (i < 1000 ? 400 + (i % 7) : 1400 + 100 * Math.sin(i / 50)),
  );

const trial = (force: Float64Array, range?: readonly [number, number], options: Partial<TrialOptions> = {}) =>
  trialOf({
    total: hills(),
    plates: [
      { name: 'A', side: 'left', force: hills() },
      { name: 'B', side: 'right', force, ...(range ? { range } : {}) },
    ],
    halfRise: 999,
    end: 1900,
    baseline: { start: 0, end: 900 },
    ...options,
  });

describe('a plate of known range', () => {
  it('fails from one sample at 99.5 % of it', () => {
    expect(judge('clipping', trial(hills({ 1500: 1989 }), [0, 2000]))).toMatchObject({
      status: 'pass',
      value: 0,
      unit: '1',
    });
    expect(judge('clipping', trial(hills({ 1500: 1990 }), [0, 2000]))).toMatchObject({
      status: 'fail',
      value: 1,
      limit: 0,
      marks: [{ at: 1500, force: 1990, label: 'B' }],
    });
  });

  it('fails from three samples at a lower limit below zero, not at a rest of zero', () => {
    const low = (value: number) => hills({ 500: value, 501: value, 502: value });
    expect(judge('clipping', trial(low(-500), [-500, 5000]))).toMatchObject({ status: 'fail', value: 3 });
    expect(judge('clipping', trial(hills({ 500: -500, 501: -500 }), [-500, 5000])).status).toBe('pass');
    expect(judge('clipping', trial(low(0), [0, 5000])).status).toBe('pass');
  });

  it('may repeat its largest value below the limit', () => {
    expect(judge('clipping', trial(hills({ 1500: 1600, 1501: 1600, 1502: 1600 }), [0, 5000])).status).toBe('pass');
  });
});

describe('a plate of unknown range', () => {
  it('fails when its largest value comes three times in a row', () => {
    expect(judge('clipping', trial(hills({ 1500: 1600, 1501: 1600, 1502: 1600 })))).toMatchObject({
      status: 'fail',
      value: 3,
    });
    expect(judge('clipping', trial(hills({ 1500: 1600, 1501: 1600 }))).status).toBe('pass');
    expect(judge('clipping', trial(hills({ 1500: 1600, 1501: 1600, 1502: 1599.9 }))).status).toBe('pass');
  });

  it('fails when the channel stands still at one value', () => {
    expect(judge('clipping', trial(new Float64Array(2000).fill(733)))).toMatchObject({ status: 'fail', value: 1901 });
  });

  it('is not troubled by what lies outside the pull, or by a plate that idles', () => {
    expect(judge('clipping', trial(hills({ 1950: 1600, 1951: 1600, 1952: 1600 }))).status).toBe('pass');
    expect(judge('clipping', trial(hills({ 1500: 1600, 1501: 1600, 1502: 1600, 1950: 1700 }))).status).toBe('pass');
    expect(judge('clipping', trial(new Float64Array(2000))).status).toBe('pass');
  });
});

it('is not judged across a gap, whose samples repeat', () => {
  expect(judge('clipping', trial(hills(), undefined, { gaps: { open: [{ start: 1500, end: 1510 }] } })).notJudged).toBe(
    'gap',
  );
});
