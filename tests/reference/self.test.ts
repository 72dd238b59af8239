import { describe, expect, it } from 'vitest';
import { generate } from './generate/recordings.ts';
import { analysePlainly, must } from './plain/analyse.ts';

describe('the generated recordings reach the branches of the definitions', () => {
  const results = Array.from({ length: 540 }, (_, seed) => generate(seed)).flatMap(({ kind, input }) =>
    analysePlainly(input).map((result) => ({ kind, input, result })),
  );
  const count = (test: (one: (typeof results)[number]) => boolean) => results.filter(test).length;

  it.each(['no-standing-window', 'no-effort', 'recording-too-short'])('trial reason %s', (reason) => {
    expect(count(({ result }) => result.reason === reason)).toBeGreaterThan(0);
  });

  it.each(['no-standing-window', 'no-quiet-window', 'gap-in-interval', 'threshold-too-high', 'needs-body-weight'])(
    'an onset with reason %s',
    (reason) => {
      const some = (all: object) => Object.values(all).some((one) => 'reason' in one && one.reason === reason);
      expect(count(({ result }) => some(result.onsets ?? {}))).toBeGreaterThan(0);
    },
  );

  it.each(['counts', 'look-again', 'repeat'])('verdict %s', (verdict) => {
    expect(count(({ result }) => result.reason === undefined && result.verdict === verdict)).toBeGreaterThan(0);
  });

  it('finds both pulls of a file with two', () => {
    expect(count(({ kind, result }) => kind === 'two-efforts' && result.span.start > 0)).toBeGreaterThan(0);
  });

  const ids = Object.keys(results.find(({ result }) => result.events)!.result.checks);
  it.each(ids)('check %s is met with more than one outcome', (id) => {
    const outcomes = new Set(results.map(({ result }) => result.checks[id]?.status).filter(Boolean));
    expect(outcomes.size).toBeGreaterThan(1);
  });
});

it('gives the same trial from its own span as from the whole file', () => {
  const two = generate(6);
  for (const seed of [6, 7, 29, 30]) {
    const { input } = generate(seed);
    for (const result of analysePlainly({ ...input, efforts: 'all' })) {
      const [again] = analysePlainly({ ...input, efforts: 'largest', span: result.span });
      expect(again!.events).toEqual(result.events);
      expect(again!.metrics).toEqual(result.metrics);
    }
  }
  expect(must(analysePlainly(two.input)[0]!.metrics.peak_force!)).toBeGreaterThan(0);
});
