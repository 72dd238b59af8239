import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { reasons } from './reasons.ts';

describe('reasons', () => {
  it('have words for every code of the type, and no code more', () => {
    const source = readFileSync(new URL('./outcome.ts', import.meta.url), 'utf8');
    const union = source.slice(source.indexOf('export type Reason ='));
    const codes = [...union.matchAll(/\| '([a-z-]+)'/gu)].map((match) => match[1] as string);
    expect(codes.length).toBeGreaterThan(10);
    expect(Object.keys(reasons).sort()).toEqual([...codes].sort());
  });

  it('say what it means and what to do, in sentences', () => {
    for (const [code, { means, next }] of Object.entries(reasons)) {
      expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/u);
      for (const sentence of [means, next]) expect(sentence).toMatch(/^[A-Z].{15,}\.$/u);
    }
  });
});
