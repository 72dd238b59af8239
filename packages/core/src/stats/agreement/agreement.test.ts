import { describe, expect, it } from 'vitest';
import { normal, studentT } from '../distributions/index.ts';
import { leastProducts } from '../lines/index.ts';
import { straightLine } from '../regression.ts';
import { detectableAt, detectableChange, icc, meanSquares } from '../reliability/index.ts';
import { kappa, limitsOfAgreement, proportional, replicateLimits, withinSd } from './index.ts';

// Bland & Altman 1986, Lancet 327:307-310: peak flow of 17 people, two readings by each of two meters. Printed: mean difference -2.1,
// SD 38.8, limits -79.7 and 75.5; the digits beyond are computed from the same data.
const wright1 = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
const wright2 = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421];
const mini1 = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
const mini2 = [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443];
const differences = wright1.map((value, i) => value - (mini1[i] as number));

describe('limits of agreement', () => {
  it('two meters of peak flow', () => {
    const found = limitsOfAgreement(differences);
    if (!found.ok) throw new Error(found.reason);
    const { n, bias, sd, lower, upper, limitError } = found.value;
    expect(n).toBe(17);
    expect(bias.value).toBeCloseTo(-2.1176470588, 9);
    expect(sd).toBeCloseTo(38.7651298736, 9);
    expect([bias.low, bias.high].map((x) => x.toFixed(6))).toEqual(['-22.048838', '17.813544']);
    expect(lower.value).toBeCloseTo(-78.0973016, 6);
    expect(upper.value).toBeCloseTo(73.8620075, 6);
    expect(limitError).toBeCloseTo(16.395108, 6);
    // The half-width of the bias is t(16) standard errors.
    expect((bias.high - bias.value) / studentT.quantile(0.975, 16)).toBeCloseTo(9.401925, 6);
    expect((upper.low - bias.value) / sd).toBeCloseTo(1.3150585, 5);
    expect((upper.high - bias.value) / sd).toBeCloseTo(3.1483238, 5);
    // Exact bounds by the noncentral t distribution (Carkeet 2015).
    expect(upper.low).toBeCloseTo(48.860767, 3);
    expect(upper.high).toBeCloseTo(119.927534, 3);
    expect(lower.low).toBeCloseTo(-124.162828, 3);
    expect(lower.high).toBeCloseTo(-53.096061, 3);
  });

  it('with the two SD of the first paper', () => {
    const found = limitsOfAgreement(differences, { span: 2 });
    expect(found.ok && found.value.lower.value).toBeCloseTo(-79.6479068, 6);
    expect(found.ok && found.value.upper.value).toBeCloseTo(75.4126127, 6);
    const exactSpan = limitsOfAgreement(differences, { span: normal.quantile(0.975) });
    expect(exactSpan.ok && exactSpan.value.lower.value).toBeCloseTo(-78.0959055, 6);
    expect(exactSpan.ok && exactSpan.value.upper.value).toBeCloseTo(73.8606114, 6);
  });

  it('of one meter with itself', () => {
    for (const [one, other, bias, sd, within, twice, detectable] of [
      [wright1, wright2, 4.9411765, 21.7240379, 15.3066691, 43.293798, 42.427922],
      [mini1, mini2, -2.8823529, 28.8723102, 19.9108306, 56.3163334, 55.190007],
    ] as const) {
      const found = limitsOfAgreement(one.map((value, i) => value - (other[i] as number)));
      expect(found.ok && found.value.bias.value).toBeCloseTo(bias, 6);
      expect(found.ok && found.value.sd).toBeCloseTo(sd, 6);
      const own = withinSd(one.map((value, i) => [value, other[i] as number])) as number;
      expect(own).toBeCloseTo(within, 6);
      // Two SD of a difference of two readings (1986) and 1.96 of them: repeatability.
      expect(detectableChange(own, 2)).toBeCloseTo(twice, 6);
      expect(detectableChange(own, detectableAt[95])).toBeCloseTo(detectable, 5);
    }
    const squares = meanSquares(wright1.map((value, i) => [value, wright2[i] as number]));
    if (!squares.ok) throw new Error(squares.reason);
    for (const [form, wanted] of [
      ['1,1', 0.983165],
      ['2,1', 0.983164],
      ['3,1', 0.983046],
    ] as const) {
      const found = icc(squares.value, form);
      expect(found.ok && found.value.value).toBeCloseTo(wanted, 6);
    }
  });

  it('beside the correlation and the line of the same readings', () => {
    expect(straightLine(wright1, mini1)?.r).toBeCloseTo(0.9432794, 6);
    const found = leastProducts(wright1, mini1);
    expect(found.ok && found.value.slope.value).toBeCloseTo(0.9725091, 6);
    expect(found.ok && found.value.intercept.value).toBeCloseTo(14.4982451, 6);
  });

  it('of single readings, from both readings', () => {
    const pairs = (one: readonly number[], other: readonly number[]) =>
      one.map((value, i) => [value, other[i] as number]);
    expect(withinSd(pairs(wright1, wright2))).toBeCloseTo(15.3066691, 6);
    expect(withinSd(pairs(mini1, mini2))).toBeCloseTo(19.9108306, 6);
    const people = wright1.map((value, i) => ({
      first: [value, wright2[i] as number],
      second: [mini1[i] as number, mini2[i] as number],
    }));
    const found = replicateLimits(people);
    if (!found.ok) throw new Error(found.reason);
    expect(found.value.bias).toBeCloseTo(-6.0294118, 6);
    expect(found.value.sdOfMeans).toBeCloseTo(33.2041369, 6);
    expect(found.value.sd).toBeCloseTo(37.6547786, 6);
    expect(found.value.upper - found.value.lower).toBeCloseTo(2 * 1.96 * 37.6547786, 5);
  });

  it('whether they follow the size of what is measured', () => {
    const found = proportional(wright1, mini1);
    if (!found.ok) throw new Error(found.reason);
    const { line, limits } = found.value;
    expect(line.slope).toBeCloseTo(0.0286875, 6);
    expect(line.slopeError).toBeCloseTo(0.0882064, 6);
    expect(line.p).toBeCloseTo(0.7494985, 6);
    expect(line.intercept).toBeCloseTo(-15.067497, 6);
    expect(line.r).toBeCloseTo(0.0836797, 6);
    expect([limits.b0, limits.b1]).toEqual([line.intercept, line.slope]);
    // Spread that grows is seen: differences of +-5 % of the mean.
    const means = Array.from({ length: 40 }, (_, i) => 100 + 50 * i);
    const grown = proportional(
      means.map((mean, i) => mean * (i % 2 === 0 ? 1.025 : 0.975)),
      means.map((mean, i) => mean * (i % 2 === 0 ? 0.975 : 1.025)),
    );
    expect(grown.ok && grown.value.spread.r).toBeGreaterThan(0.95);
    expect(grown.ok && grown.value.limits.c1).toBeCloseTo(0.05, 2);
  });

  it('says what it cannot', () => {
    expect(limitsOfAgreement([1, 2])).toEqual({ ok: false, reason: 'too-few-values' });
    expect(limitsOfAgreement([2, 2, 2])).toEqual({ ok: false, reason: 'no-spread' });
    expect(
      replicateLimits([
        { first: [1], second: [2] },
        { first: [1], second: [2] },
      ]),
    ).toEqual({
      ok: false,
      reason: 'too-few-values',
    });
    expect(proportional([1, 2, 3], [3, 2, 1])).toEqual({ ok: false, reason: 'no-spread' });
  });
});

describe('kappa', () => {
  // A textbook table (from memory): observed 0.70, by chance 0.50.
  it('two readers, two kinds', () => {
    const found = kappa([
      [20, 5],
      [10, 15],
    ]);
    if (!found.ok) throw new Error(found.reason);
    expect(found.value.observed).toBeCloseTo(0.7, 12);
    expect(found.value.expected).toBeCloseTo(0.5, 12);
    expect(found.value.kappa).toBeCloseTo(0.4, 12);
    expect(found.value.standardError).toBeCloseTo(0.129615, 6);
  });

  it('is not defined where nothing is said, or always the same', () => {
    expect(
      kappa([
        [0, 0],
        [0, 0],
      ]),
    ).toEqual({ ok: false, reason: 'too-few-values' });
    expect(
      kappa([
        [9, 0],
        [0, 0],
      ]),
    ).toEqual({ ok: false, reason: 'no-spread' });
  });
});
