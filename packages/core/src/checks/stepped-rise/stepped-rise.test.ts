import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/** Rises 10 N a sample from 800 to 2800 N; after 1500 N falls back by `depth` for `length` samples. */
const trial = (depth: number, length: number, sampleRate = 1000) => {
  const rise = Array.from({ length: 200 }, (_, i) => 810 + 10 * i);
  const total = [
    ...Array.from({ length: 1000 }, () => 800),
    ...rise.slice(0, 70),
    ...Array.from({ length }, () => 1500 - depth),
    ...rise.slice(70),
    ...Array.from({ length: 500 }, () => 2800),
  ];
  const halfRise = total.findIndex((force) => force > 1800) - 1;
  return trialOf({ total, sampleRate, halfRise, onset: 1000, baseline: { start: 0, end: 1000 }, weight: 800 });
};

it('times how long the force stays 5 % below its highest so far', () => {
  // 5 % of 2000 N is 100 N.
  expect(judge('stepped_rise', trial(101, 30))).toMatchObject({ status: 'pass', value: 0.03, limit: 0.03, unit: 's' });
  expect(judge('stepped_rise', trial(101, 31))).toMatchObject({ status: 'warn', value: 0.031 });
  expect(judge('stepped_rise', trial(100, 300))).toMatchObject({ status: 'pass', value: 0 });
  expect(judge('stepped_rise', trial(101, 31, 2000)).status).toBe('pass');
});

it('marks where', () => {
  expect(judge('stepped_rise', trial(200, 50)).marks?.map((mark) => mark.at)).toEqual([1070, 1119]);
});

it('stops at 80 % of the rise', () => {
  const total = [
    ...Array.from({ length: 1000 }, () => 800),
    1300,
    1900,
    2500,
    2000,
    ...Array.from({ length: 60 }, () => 2000),
    2800,
  ];
  const late = trialOf({ total, halfRise: 1000, onset: 1000, baseline: { start: 0, end: 1000 } });
  expect(judge('stepped_rise', late)).toMatchObject({ status: 'pass', value: 0, judged: { start: 1000, end: 1003 } });
  expect(judge('stepped_rise', trialOf({ total, halfRise: 1000, baseline: { start: 0, end: 1000 } })).notJudged).toBe(
    'no-onset',
  );
});
