import { describe, expect, it } from 'vitest';
import { onsetInput } from '../../../test/onset-input.ts';
import { have, lack } from '../../outcome.ts';
import { percentOfWeightRules } from './percent-of-weight.ts';

// By hand: B = 1000 N, one more newton each sample from index 20 on.
const curve = Array.from({ length: 520 }, (_, i) => 1000 + Math.max(0, i - 19));
const bodyWeight = have({ value: 800, unit: 'N', from: 'weighing' } as const);

describe('percent of body weight', () => {
  it.each([
    [0, 20],
    [1, 40],
    [2, 80],
  ])('rule %d lies %d N above the baseline, not above the weight', (at, above) => {
    const outcome = percentOfWeightRules[at]?.find(onsetInput(curve, 20, 1400, { bodyWeight }));
    expect(outcome).toMatchObject({ ok: true, value: { index: 20 + above, threshold: 1000 + above } });
  });

  it('passes on why there is no weight', () => {
    for (const rule of percentOfWeightRules) {
      expect(rule.find(onsetInput(curve, 20, 1400))).toEqual({ ok: false, reason: 'no-body-weight' });
      const weightless = onsetInput(curve, 20, 1400, { bodyWeight: lack('needs-body-weight'), weighted: false });
      expect(rule.find(weightless)).toEqual({ ok: false, reason: 'needs-body-weight' });
    }
  });
});
