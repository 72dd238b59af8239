import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../../test/onset-input.ts';
import { have, lack } from '../../outcome.ts';
import { type HandPlacement, placeOnset } from './by-hand.ts';

const input = onsetInput([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 4, 6);
const placed = { index: 5, by: 'M. Halvard', reason: 'last trough' };
const given: HandPlacement = {
  forces: input.forces,
  span: input.span,
  end: 9,
  width: 3,
  baseline: have(input.baseline),
  automatic: lack('onset-not-found'),
  placed,
};

describe('an onset placed by hand', () => {
  it('keeps who, why and what the rule said', () => {
    expect(placeOnset(given)).toEqual({
      ok: true,
      value: {
        index: 5,
        rule: 'by-hand',
        threshold: 6,
        thresholdUnit: 'N',
        baseline: input.baseline,
        search: { start: 5, end: 6 },
        byHand: { by: 'M. Halvard', reason: 'last trough', automatic: { ok: false, reason: 'onset-not-found' } },
      },
    });
  });

  it('shows the window before it where the search found no baseline', () => {
    const outcome = placeOnset({ ...given, baseline: lack('no-quiet-window') });
    expect(outcome.ok && outcome.value.baseline).toEqual({ start: 2, end: 5, mean: 4, sd: 1 });
    const first = placeOnset({ ...given, baseline: lack('no-quiet-window'), placed: { ...placed, index: 1 } });
    expect(first).toEqual({ ok: false, reason: 'no-quiet-window' });
  });

  it('stands on the nearest sample, inside the span and before the end', () => {
    expect(placeOnset({ ...given, placed: { ...placed, index: 4.5 } })).toMatchObject({
      ok: true,
      value: { index: 5 },
    });
    for (const index of [-1, 9, 40, Number.NaN]) {
      expect(placeOnset({ ...given, placed: { ...placed, index } })).toEqual({ ok: false, reason: 'onset-not-found' });
    }
  });
});
