import { analyse } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { requestOf } from './core-request.ts';
import { cutTo } from './cut.ts';
import { close, differences } from './differences.ts';
import { generate } from './generate/recordings.ts';
import { analysePlainly } from './plain/analyse.ts';
import type { Input, Span } from './plain/types.ts';

/** REFERENCE_SEEDS=from..to runs other seeds, for a longer search. */
const [from, to] = (process.env.REFERENCE_SEEDS ?? '0..540').split('..').map(Number) as [number, number];

/**
 * "Its span is stored, and re-analysis uses the span, so live and stored agree to the last digit": a trial sees nothing
 * outside its span. Filtered recordings are left out, since the filter comes before everything; so is the look for a
 * channel's largest value of the whole recording.
 */
function* cases(): Generator<{ name: string; input: Input; span: Span }> {
  for (let seed = from; seed < to; seed++) {
    const { kind, input } = generate(seed);
    if (kind === 'filtered' || kind === 'clipped') continue;
    const N = input.total.length;
    // A start that moves with the seed, so that some spans begin within a rise.
    const start = Math.floor(0.08 * N) + (kind === 'truncated-start' ? seed % 97 : 0);
    yield { name: `seed ${seed} (${kind})`, input, span: { start, end: Math.floor(0.95 * N) } };
  }
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

/** Everything that was found, from one pass: the analyses of what was cut serve two comparisons each. */
function compare() {
  const found = { cases: 0, plainly: [] as string[], product: [] as string[], both: [] as string[] };
  for (const { name, input, span } of cases()) {
    found.cases++;
    const cut = cutTo(input, span);
    const [plain, product] = [analysePlainly(cut), analyse(requestOf(cut)).trials];
    for (const [i, trial] of analysePlainly({ ...input, span }).entries())
      found.plainly.push(...unlike(name, trial.metrics, plain[i]!.metrics));
    for (const [i, trial] of analyse(requestOf({ ...input, span })).trials.entries())
      found.product.push(...unlike(name, trial.metrics, product[i]!.metrics));
    found.both.push(...differences(cut, plain, product).map((line) => `${name} ${line}`));
  }
  return found;
}

let once: ReturnType<typeof compare> | undefined;
const found = () => {
  once ??= compare();
  return once;
};

describe('a span gives what the recording cut to that span gives', { timeout: 300_000 }, () => {
  it('in the plain implementation', () => {
    expect(found().plainly).toEqual([]);
    expect(found().cases).toBeGreaterThan((400 / 540) * (to - from));
  });

  it('in the product', () => {
    expect(found().product).toEqual([]);
  });

  it('in both alike', () => {
    expect(found().both).toEqual([]);
  });
});
