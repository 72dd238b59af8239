import { describe, expect, it } from 'vitest';
import { automaticOnsetRules, onsetRegistry } from './index.ts';

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
