import { analyse } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { requestOf } from './core-request.ts';
import { differences } from './differences.ts';
import { generate } from './generate/recordings.ts';
import { analysePlainly } from './plain/analyse.ts';

/**
 * The two implementations of the definitions on generated recordings: every event, onset, metric, check, verdict and
 * reason must agree to 1e-9. REFERENCE_SEEDS=from..to runs other seeds, for a longer search.
 */
const [from, to] = (process.env.REFERENCE_SEEDS ?? '0..1000').split('..').map(Number) as [number, number];
const batch = 100;

describe('both implementations agree on generated recordings', () => {
  for (let first = from; first < to; first += batch) {
    const last = Math.min(first + batch, to);
    it(`seeds ${first} to ${last - 1}`, () => {
      const found: string[] = [];
      for (let seed = first; seed < last; seed++) {
        const { kind, input } = generate(seed);
        const lines = differences(input, analysePlainly(input), analyse(requestOf(input)).trials);
        for (const line of lines) found.push(`seed ${seed} (${kind}, ${input.fs} Hz): ${line}`);
      }
      expect(found).toEqual([]);
    });
  }
});
