import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../test/onset-input.ts';
import { have } from '../outcome.ts';
import { automaticOnsetRules, type OnsetRule, onsetRegistry } from './index.ts';

describe('onset rules', () => {
  it('are the published list, in a fixed order', () => {
    expect(onsetRegistry.all.map(({ id }) => id)).toEqual([
      'local-line',
      'five-sd',
      'five-sd-floor',
      'three-sd',
      'percent-weight-2.5',
      'percent-weight-5',
      'percent-weight-10',
      'fixed-newton-20',
      'fixed-newton-40',
      'fixed-newton-50',
      'fixed-newton-75',
      'forward-five-sd',
      'slope',
      'by-hand',
    ]);
    expect(automaticOnsetRules).toHaveLength(13);
  });

  it('say what they are and where they come from', () => {
    for (const rule of onsetRegistry.all) {
      expect(rule.version).toBe(1);
      for (const words of [rule.title, rule.definition, rule.source]) expect(words.length).toBeGreaterThan(8);
    }
  });
});

// isometric-and-statistics.md 9.5 and 2.4 (calc): how late a threshold above 800 N is passed on two exact curves, ms after their start. A
// rule gives the first sample beyond; at 100 kHz the straight line to the sample before it is within 1e-6 ms of the curve.
describe('the delay of a threshold', () => {
  const perMillisecond = 100;
  const start = 1000;
  const bodyWeight = have({ value: 800, unit: 'N', from: 'weighing' } as const);

  function delayOf(rule: string, net: (t: number) => number): { sampled: number; interpolated: number } {
    const curve = Array.from({ length: 30_000 }, (_, i) => 800 + net(Math.max(0, i - start) / (1000 * perMillisecond)));
    const found = (onsetRegistry.get(rule) as OnsetRule).find(onsetInput(curve, start, 1700, { bodyWeight }));
    if (!found.ok) throw new Error(found.reason);
    const { index, threshold } = found.value;
    const [before, beyond] = [curve[index - 1] as number, curve[index] as number];
    expect(before).toBeLessThanOrEqual(threshold);
    expect(beyond).toBeGreaterThan(threshold);
    const share = (threshold - before) / (beyond - before);
    return {
      sampled: (index - start) / perMillisecond,
      interpolated: (index - 1 + share - start) / perMillisecond,
    };
  }

  it.each([
    ['fixed-newton-20', 1.005034, 15.04],
    ['fixed-newton-40', 2.020271, 21.32],
    ['fixed-newton-50', 2.531781, 23.87],
    ['fixed-newton-75', 3.822122, 29.33],
    ['percent-weight-2.5', 1.005034, 15.04],
    ['percent-weight-5', 2.020271, 21.32],
    ['percent-weight-10', 4.082199, 30.31],
  ])('%s', (rule, exponential, sigmoid) => {
    const steep = delayOf(rule, (t) => 2000 * (1 - Math.exp(-t / 0.1)));
    expect(Math.abs(steep.interpolated - exponential)).toBeLessThan(1e-5);
    expect(steep.sampled).toBe(Math.ceil(exponential * perMillisecond) / perMillisecond);
    const slow = delayOf(rule, (t) => 2000 * (1 - Math.exp(-((t / 0.15) ** 2))));
    expect(Math.abs(slow.interpolated - sigmoid)).toBeLessThan(0.01);
  });
});
