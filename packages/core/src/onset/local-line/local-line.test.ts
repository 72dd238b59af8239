import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../../test/onset-input.ts';
import { forcesOfCurve } from '../../../test/pulls.ts';
import { have, lack } from '../../outcome.ts';
import type { OnsetInput } from '../rule.ts';
import { localLine } from './local-line.ts';

// By hand: 800 N rising by 0.01 N a sample, and from sample 1000 on by 4 N more a sample. At 1000 Hz h = 5, and G, the mean
// of 11 samples, lies 4 (1 + ... + k) / 11 N above the line at sample 994 + k: 3.64 N at 998, 5.45 N at 999. So the onset is 999.
// r = 1250 and q = 1050: the line is fitted to the 250 samples before 800.
const sway = 0.01;
const curve = (more: (i: number) => number = () => 0) =>
  Float64Array.from({ length: 1500 }, (_, i) => 800 + sway * i + 4 * Math.max(0, i - 999) + more(i));
const input = (force = curve(), more: Partial<OnsetInput> = {}) =>
  onsetInput(force, 400, 1817, { riseStart: have(1050), ...more });

describe('local line', () => {
  it('is left at the first sample of the last stretch more than 5 N above it', () => {
    const outcome = localLine.find(input());
    expect(input().halfRise).toBe(1250);
    expect(outcome).toMatchObject({ ok: true, value: { index: 999, rule: 'local-line', thresholdUnit: 'N' } });
    if (!outcome.ok) return;
    expect(outcome.value.threshold).toBeCloseTo(800 + sway * 999 + 5, 8);
    expect(outcome.value.search).toEqual({ start: 800, end: 1251 });
  });

  it('follows the sway where a level would not', () => {
    // A slope of 40 N/s either way moves nothing but the threshold.
    for (const slope of [-0.04, 0.04]) {
      const force = curve((i) => slope * i);
      expect(localLine.find(input(force, { halfLevel: 1790 + 1250 * slope }))).toMatchObject({ value: { index: 999 } });
    }
  });

  it('asks for four residual SDs where they are more than 5 N', () => {
    // Every other block of 11 samples 3 N higher: the means move, and the line leaves residuals of a known size.
    const uneven = (i: number) => (i < 950 && Math.floor(i / 11) % 2 ? 6 : 0);
    const outcome = localLine.find(input(curve(uneven)));
    const force = curve(uneven);
    const means = Array.from({ length: 250 }, (_, k) => force.slice(545 + k, 556 + k).reduce((a, b) => a + b, 0) / 11);
    // Normal equations, written out.
    const x = means.map((_, k) => k);
    const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
    const [sx, sy, sxx, sxy] = [sum(x), sum(means), sum(x.map((k) => k * k)), sum(x.map((k) => k * (means[k] ?? 0)))];
    const slope = (250 * sxy - sx * sy) / (250 * sxx - sx * sx);
    const start = (sy - slope * sx) / 250;
    const sd = Math.sqrt(sum(means.map((mean, k) => (mean - start - slope * k) ** 2)) / 248);
    expect(4 * sd).toBeGreaterThan(5);
    expect(outcome.ok && outcome.value.threshold).toBeCloseTo(
      start + slope * ((outcome.ok ? outcome.value.index : 0) - 550) + 4 * sd,
      8,
    );
  });

  it('drops the 5 N in tests without body weight and in other units', () => {
    // Then the first mean that holds a sample of the rise is above the line.
    const flat = curve((i) => -sway * i);
    expect(localLine.find(input(flat, { weighted: false }))).toMatchObject({ value: { index: 995 } });
    const torque = { ...forcesOfCurve(flat, 1000), unit: 'N.m' };
    expect(localLine.find(input(flat, { forces: torque }))).toMatchObject({
      value: { index: 995, thresholdUnit: 'N.m' },
    });
  });

  it('keeps away from a slow rise by the time from q to r', () => {
    expect(localLine.find(input(curve(), { riseStart: have(950) }))).toMatchObject({
      value: { search: { start: 650 } },
    });
  });

  it('returns reasons', () => {
    const reason = (more: Partial<OnsetInput>) => {
      const outcome = localLine.find(input(curve(), more));
      return outcome.ok ? 'none' : outcome.reason;
    };
    expect(reason({ riseStart: lack('onset-not-found') })).toBe('onset-not-found');
    expect(reason({ span: { start: 544, end: 1500 } })).toBe('none');
    expect(reason({ span: { start: 546, end: 1500 } })).toBe('onset-not-found');
    expect(reason({ halfLevel: 817 })).toBe('threshold-too-high');
    const step = forcesOfCurve(
      curve().map((_, i) => (i < 800 ? 800 : 1800)),
      1000,
    );
    expect(reason({ forces: step, halfLevel: 5000 })).toBe('onset-not-found');
    const torn = (start: number) => ({ ...input().forces, gaps: { filled: [], open: [{ start, end: start + 6 }] } });
    expect(reason({ forces: torn(544) })).toBe('gap-in-interval');
    expect(reason({ forces: torn(538) })).toBe('none');
    expect(reason({ forces: torn(1255) })).toBe('gap-in-interval');
    expect(reason({ forces: forcesOfCurve(curve(), 9) })).toBe('window-too-short');
  });
});
