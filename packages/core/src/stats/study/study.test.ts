import { describe, expect, it } from 'vitest';
import { agreementStudy, reliabilityStudy } from './index.ts';

// Weir 2005, J Strength Cond Res 19:231-240, set A.
const weir = [
  [146, 140],
  [148, 152],
  [170, 152],
  [90, 99],
  [157, 145],
  [156, 153],
  [176, 167],
  [205, 218],
];

describe('a reliability study', () => {
  it('holds what the parts say', () => {
    const found = reliabilityStudy(weir, 'unit');
    if (!found.ok) throw new Error(found.reason);
    const { people, complete, values, occasions, correlations, error, detectable, worthwhile, usefulness, small } =
      found.value;
    expect([people, complete, values, small]).toEqual([8, 8, 16, true]);
    expect(occasions.map(({ mean }) => mean)).toEqual([156, 153.25]);
    expect(occasions[0]?.sd).toBeCloseTo(32.771939, 6);
    expect(correlations['2,1'].ok && correlations['2,1'].value.low).toBeCloseTo(0.786959, 6);
    expect(error.value).toBeCloseTo(7.556927, 6);
    expect(error.interval.high).toBeCloseTo(15.380402, 6);
    expect(detectable[95]).toBeCloseTo(20.946732, 5);
    expect(worthwhile.ok && worthwhile.value).toBeCloseTo(0.2 * 31.948619, 5);
    expect(usefulness).toBe('coarser');
    expect(found.value.familiarisation).toBe(0);
    expect(found.value.cv).toBeUndefined();
    expect(found.value.all).toBeUndefined();
  });

  it('in logs gives a coefficient of variation', () => {
    const found = reliabilityStudy(weir, 'log');
    expect(found.ok && found.value.cv?.value).toBeCloseTo(5.161627, 5);
    expect(found.ok && found.value.cv?.high).toBeCloseTo(10.78617, 5);
    expect(found.ok && found.value.occasions[0]?.mean).toBe(156);
    expect(
      reliabilityStudy(
        [
          [1, 2],
          [0, 3],
          [2, 2],
        ],
        'log',
      ),
    ).toEqual({ ok: false, reason: 'not-positive' });
  });

  it('with a hole names the row, and uses every value once more by a mixed model', () => {
    const holed = [...weir.slice(0, 7), [205, null]];
    const found = reliabilityStudy(holed, 'unit');
    if (!found.ok) throw new Error(found.reason);
    expect([found.value.people, found.value.complete, found.value.leftOut]).toEqual([8, 7, [7]]);
    const complete = reliabilityStudy(weir.slice(0, 7), 'unit');
    expect(complete.ok && complete.value.error.value).toBe(found.value.error.value);
    const { all } = found.value;
    if (!all?.ok) throw new Error('no model');
    // A single value tells nothing of the error: it stays that of the complete rows.
    expect(all.value.error.value).toBeCloseTo(found.value.error.value, 1);
    expect(all.value.icc).toBeGreaterThan(0.9);
    expect(
      reliabilityStudy(
        [
          [1, null],
          [null, 2],
        ],
        'unit',
      ),
    ).toEqual({ ok: false, reason: 'too-few-values' });
  });
});

describe('an agreement study', () => {
  it('takes the second against the first', () => {
    const first = [7, 8.3, 10.5, 9, 5.1, 8.2, 10.2, 10.3, 7.1, 5.9];
    const second = [7.9, 8.2, 9.6, 9, 6.5, 7.3, 10.2, 10.6, 6.3, 5.2];
    const found = agreementStudy(first, second, { ratio: 0.25 });
    if (!found.ok) throw new Error(found.reason);
    const { limits, leastProducts, deming, passingBablok, bias, small, n } = found.value;
    expect([n, small]).toEqual([10, true]);
    expect(limits.ok && limits.value.bias.value).toBeCloseTo(-0.08, 10);
    expect(leastProducts.ok && leastProducts.value.slope.value).toBeCloseTo(0.9473665869, 8);
    expect(deming.ok && deming.value.slope.value).toBeCloseTo(1.0011942278, 8);
    expect(passingBablok.ok && passingBablok.value.slope.value).toBeCloseTo(1, 6);
    expect(bias).toEqual({ fixed: false, proportional: false });
    expect(agreementStudy([1, 2], [1, 2])).toEqual({ ok: false, reason: 'too-few-values' });
    expect(() => agreementStudy([1, 2, 3], [1, 2])).toThrow(RangeError);
  });
});
