import { describe, expect, it } from 'vitest';
import { isUncertainty, plusMinusText, shareOf, sizeText } from './uncertain.ts';

const one = { standard: 6, expanded: 12, coverage: 2, unit: 'N', parts: [], unknown: [] };

describe('plus or minus', () => {
  it('is written at the precision of the value', () => {
    expect(plusMinusText(one, 0)).toBe('\u00b1\u202f12');
    expect(plusMinusText({ ...one, expanded: 0.4567 }, 2)).toBe('\u00b1\u202f0.46');
  });

  it('never says nothing where there is something', () => {
    expect(sizeText(0.0034, 1)).toBe('0.003');
    expect(sizeText(0.04, 0)).toBe('0.04');
    expect(sizeText(0, 0)).toBe('0');
  });

  it('says with a plus that it may be more', () => {
    const unknown = [{ id: 'gain', words: 'Gain' }];
    expect(plusMinusText({ ...one, unknown }, 0)).toBe('\u00b1\u202f12+');
  });

  it('is not written where it is not known', () => {
    expect(plusMinusText(undefined, 0)).toBeUndefined();
    expect(plusMinusText({ reason: 'sources-not-known' }, 0)).toBeUndefined();
    expect(isUncertainty({ reason: 'sources-not-known' })).toBe(false);
  });

  it('shares are those of the squares', () => {
    expect(shareOf({ standard: 3 }, one)).toBe(0.25);
    expect(shareOf({ standard: 3 }, { standard: 0 })).toBe(0);
  });
});
