import { analyse } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { requestOf } from './core-request.ts';
import { cutTo } from './cut.ts';
import { close, differences } from './differences.ts';
import { generate } from './generate/recordings.ts';
import { analysePlainly } from './plain/analyse.ts';
import type { Input, Span } from './plain/types.ts';

/**
 * "Its span is stored, and re-analysis uses the span, so live and stored agree to the last digit": a trial sees nothing
 * outside its span. Filtered recordings are left out, since the filter comes before everything; so is the look for a
 * channel's largest value of the whole recording.
 */
function cases(): { name: string; input: Input; span: Span }[] {
  const out = [];
  for (let seed = 0; seed < 540; seed++) {
    const { kind, input } = generate(seed);
    if (kind === 'filtered' || kind === 'clipped') continue;
    const N = input.total.length;
    // A start that moves with the seed, so that some spans begin within a rise.
    const start = Math.floor(0.08 * N) + (kind === 'truncated-start' ? seed % 97 : 0);
    out.push({ name: `seed ${seed} (${kind})`, input, span: { start, end: Math.floor(0.95 * N) } });
  }
  return out;
}

type Metrics = Readonly<Record<string, { readonly value: number } | { readonly reason: string }>>;

/** Metrics that differ, one line each; positions differ by the start of the span, so the last digits may. */
function unlike(name: string, span: Metrics, cut: Metrics): string[] {
  const out: string[] = [];
  for (const id of Object.keys(span)) {
    const read = (of: Metrics) => (of[id] && 'value' in of[id] ? of[id].value : of[id]?.reason);
    const one = read(span);
    const other = read(cut);
    const same = typeof one === 'number' && typeof other === 'number' ? close(one, other) : one === other;
    if (!same) out.push(`${name} ${id}: span ${one}, cut ${other}`);
  }
  return out;
}

describe('a span gives what the recording cut to that span gives', () => {
  it('in the plain implementation', () => {
    const found = cases().flatMap(({ name, input, span }) => {
      const cut = analysePlainly(cutTo(input, span));
      return analysePlainly({ ...input, span }).flatMap((trial, i) => unlike(name, trial.metrics, cut[i]!.metrics));
    });
    expect(found).toEqual([]);
  });

  it('in the product', () => {
    const found = cases().flatMap(({ name, input, span }) => {
      const cut = analyse(requestOf(cutTo(input, span))).trials;
      return analyse(requestOf({ ...input, span })).trials.flatMap((trial, i) =>
        unlike(name, trial.metrics, cut[i]!.metrics),
      );
    });
    expect(found).toEqual([]);
  });

  it('in both alike', () => {
    const found = cases().flatMap(({ name, input, span }) => {
      const cut = cutTo(input, span);
      return differences(cut, analysePlainly(cut), analyse(requestOf(cut)).trials).map((line) => `${name} ${line}`);
    });
    expect(found).toEqual([]);
  });
});
