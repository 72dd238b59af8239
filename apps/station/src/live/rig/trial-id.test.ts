import { describe, expect, it } from 'vitest';
import { effortIds } from './trial-id.ts';

describe('ids of an effort', () => {
  it('are the same for the same capture and sample, and no other', () => {
    const capture = '3f0c8a5e-8f0f-4a52-9d1c-2f7a54b7a0c1';
    const all = [0, 1, 12, 120].map((sample) => effortIds(capture, sample));
    expect(effortIds(capture, 12)).toEqual(all[2]);
    const distinct = new Set([...all, effortIds('other', 12)].flatMap(({ trial, session }) => [trial, session]));
    expect(distinct.size).toBe(10);
    // RFC 9562, section 5.8: version 8, variant 10.
    for (const id of distinct)
      expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
});
