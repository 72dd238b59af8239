import { expect, it } from 'vitest';
import { judge } from '../../../test/read.ts';
import { trialOf } from '../../../test/trial-of.ts';

/**
 * From the onset at 1000: 1 ms per sample, rises 5 N a sample for 40 samples, then `slow` N a sample for 200, then 20 N a sample
 * to 2800 N. Q = B = 800, so the range is 2000 N.
 */
const trial = (slow: number, onset: number | 'onset-not-found' = 1000) => {
  const total: number[] = [];
  let force = 800;
  for (let i = 0; i < 3000; i++) {
    total.push(force);
    const step = i < 1000 ? 0 : i < 1040 ? 5 : i < 1240 ? slow : 20;
    force = Math.min(2800, force + step);
  }
  const halfRise = total.findIndex((f) => f > 1800) - 1;
  return trialOf({ total, halfRise, onset, baseline: { start: 0, end: 1000 }, weight: 800 });
};

it('judges the slowest tenth of a second as a share of the rise', () => {
  // Closed form: 100 ms inside the slow stretch rise by 100 * slow of 2000 N.
  expect(judge('stepped_start', trial(1.1)).value).toBeCloseTo(5.5, 9);
  expect(judge('stepped_start', trial(1.1))).toMatchObject({ status: 'pass', limit: 5 });
  expect(judge('stepped_start', trial(0.9))).toMatchObject({ status: 'warn', limit: 5 });
  expect(judge('stepped_start', trial(0.1))).toMatchObject({ status: 'fail', limit: 1 });
});

it('uses trailing means, so the first looks back before the onset', () => {
  // A jump of 150 N at the onset and 1 N a sample from there: the trailing mean at the onset holds 19 quiet samples and one
  // after the jump. Its rise over 100 ms is smallest once the jump has left the window.
  const total = Array.from({ length: 2000 }, (_, i) => (i < 1000 ? 800 : i < 1500 ? 950 + (i - 1000) : 2950));
  const result = judge(
    'stepped_start',
    trialOf({ total, halfRise: 1500, onset: 1000, baseline: { start: 0, end: 1000 } }),
  );
  expect(result.value).toBeCloseTo((100 * 100) / 2150, 9);
  expect(result.marks?.[0]?.at).toBeGreaterThanOrEqual(1019);
});

it('does not judge a rise shorter than 100 ms or without an onset', () => {
  const steep = Array.from({ length: 1500 }, (_, i) => 800 + 20 * Math.min(100, Math.max(0, i - 1000)));
  const short = trialOf({ total: steep, halfRise: 1050, onset: 1000, baseline: { start: 0, end: 1000 } });
  expect(judge('stepped_start', short).notJudged).toBe('too-short');
  expect(judge('stepped_start', trial(1, 'onset-not-found')).notJudged).toBe('no-onset');
});

it('looks up to the sample that reaches 80 % of the rise', () => {
  // 10 N a sample for 150 samples, 0.5 N a sample for 200 (to 2400 N), then up to 2800 N. 80 % of the rise is 2400 N, so the slowest
  // 100 ms end with the stretch; its trailing means of 20 lie wholly on 0.5 N a sample.
  const rise = Array.from({ length: 150 }, (_, i) => 800 + 10 * i);
  const slow = Array.from({ length: 201 }, (_, i) => 2300 + 0.5 * i);
  const total = [
    ...Array.from({ length: 1000 }, () => 800),
    ...rise,
    ...slow,
    ...Array.from({ length: 300 }, () => 2800),
  ];
  const result = judge(
    'stepped_start',
    trialOf({ total, halfRise: 1099, onset: 1000, baseline: { start: 0, end: 1000 } }),
  );
  expect(result.judged).toEqual({ start: 1000, end: 1351 });
  expect(result.value).toBeCloseTo((100 * 50) / 2000, 9);
});

it('counts the very last 100 ms', () => {
  // Ever slower up to 2400 N at sample 1400, so the slowest 100 ms are those that end where 80 % is reached.
  const rise = Array.from({ length: 401 }, (_, k) => 800 + 1600 * (1 - ((k - 400) / 400) ** 2));
  const total = [...Array.from({ length: 1000 }, () => 800), ...rise, ...Array.from({ length: 300 }, () => 2800)];
  const result = judge(
    'stepped_start',
    trialOf({ total, halfRise: 1099, onset: 1000, baseline: { start: 0, end: 1000 } }),
  );
  expect(result.marks?.map((mark) => mark.at)).toEqual([1300, 1400]);
});
