import { describe, expect, it } from 'vitest';
import { inLogs, percentOfLogs } from '../table.ts';
import {
  coefficientOfVariation,
  detectableAt,
  detectableChange,
  familiarisation,
  type IccForm,
  icc,
  iccBands,
  iccForms,
  learningSteps,
  type MeanSquares,
  meanSquares,
  oneWay,
  pooledError,
  standardErrors,
  testsToReach,
  trueScore,
  typicalErrorInterval,
  usefulness,
  worthwhileChange,
} from './index.ts';

// Shrout & Fleiss 1979, Psychol Bull 86:420-428: six targets, four judges. Printed ICCs 0.17, 0.29, 0.71, 0.44, 0.62, 0.91; the digits
// beyond are computed from the same data.
const targets = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];
// Weir 2005, J Strength Cond Res 19:231-240: eight people, two trials (set A; set B has the same differences and less spread and is from
// memory).
const weirA = [
  [146, 140],
  [148, 152],
  [170, 152],
  [90, 99],
  [157, 145],
  [156, 153],
  [176, 167],
  [205, 218],
];
const weirB = [
  [166, 160],
  [168, 172],
  [160, 142],
  [150, 159],
  [147, 135],
  [146, 143],
  [156, 147],
  [155, 168],
];

function squaresOf(table: readonly (readonly (number | null)[])[]): MeanSquares {
  const found = meanSquares(table);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}
function of(table: readonly (readonly (number | null)[])[], form: IccForm) {
  const found = icc(squaresOf(table), form);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

describe('intraclass correlation', () => {
  it('six targets and four judges', () => {
    const { between, within, occasion, error, oneWay, twoWay, shift } = squaresOf(targets);
    for (const [got, wanted] of [
      [between.mean, 11.241667],
      [within.mean, 6.263889],
      [occasion.mean, 32.486111],
      [error.mean, 1.019444],
      [oneWay.f, 1.794678],
      [twoWay.f, 11.027248],
      [shift.f, 31.866485],
    ] as const)
      expect(got).toBeCloseTo(wanted, 6);
    const wanted: Record<IccForm, readonly [number, number, number]> = {
      '1,1': [0.165742, -0.132932, 0.72256],
      '2,1': [0.289764, 0.018787, 0.761084],
      '3,1': [0.714841, 0.342465, 0.945858],
      '1,k': [0.442797, -0.884442, 0.912415],
      '2,k': [0.620051, 0.071137, 0.927232],
      '3,k': [0.909316, 0.675675, 0.985892],
    };
    for (const form of Object.keys(iccForms) as IccForm[]) {
      const { value, low, high, level } = of(targets, form);
      for (const [i, got] of [value, low, high].entries()) expect(got, form).toBeCloseTo(wanted[form][i] as number, 6);
      expect(level).toBe(0.95);
    }
  });

  it('two sets of the same differences and different spread', () => {
    const wanted = [
      [weirA, '1,1', 0.950053, 0.79213, 0.989599],
      [weirA, '2,1', 0.949975, 0.786959, 0.989637],
      [weirA, '3,1', 0.947016, 0.760678, 0.989163],
      [weirB, '1,1', 0.55891, -0.123325, 0.890802],
      [weirB, '2,1', 0.552749, -0.183172, 0.891175],
      [weirB, '3,1', 0.537728, -0.200503, 0.886463],
    ] as const;
    for (const [table, form, value, low, high] of wanted) {
      const got = of(table, form);
      expect(got.value).toBeCloseTo(value, 6);
      expect(got.low).toBeCloseTo(low, 6);
      expect(got.high).toBeCloseTo(high, 6);
    }
    const means = (['1,k', '2,k', '3,k'] as const).map((form) => [of(weirA, form).value, of(weirB, form).value]);
    const printed = [
      [0.974387, 0.717052],
      [0.974346, 0.711962],
      [0.972787, 0.69938],
    ];
    for (const [i, pair] of means.entries())
      for (const [j, got] of pair.entries()) expect(got).toBeCloseTo(printed[i]?.[j] as number, 6);
    expect(squaresOf(weirA).shift.p).toBeCloseTo(0.490353, 6);
    expect(iccBands(of(weirA, '2,1'))).toEqual(['good', 'excellent']);
    expect(iccBands(of(weirB, '2,1'))).toEqual(['poor', 'good']);
  });

  it('keeps what is negative, and has none where nothing differs', () => {
    expect(
      of(
        [
          [1, 5],
          [2, 4],
          [3, 3],
          [4, 2],
        ],
        '3,1',
      ).value,
    ).toBeLessThan(0);
    const equal = squaresOf([
      [3, 3],
      [3, 3],
      [3, 3],
    ]);
    for (const form of Object.keys(iccForms) as IccForm[])
      expect(icc(equal, form)).toEqual({ ok: false, reason: 'no-spread' });
    expect(equal.error.mean).toBe(0);
  });

  it('does not move with a common number or the unit', () => {
    const moved = weirA.map((row) => row.map((value) => 1_000_000 + value / 1000));
    for (const form of Object.keys(iccForms) as IccForm[])
      expect(of(moved, form).value).toBeCloseTo(of(weirA, form).value, 5);
  });

  it('names rows with a hole and leaves nothing out in silence', () => {
    const { people, leftOut } = squaresOf([
      [1, 2],
      [3, null],
      [4, 6],
      [5, 5],
    ]);
    expect([people, leftOut]).toEqual([3, [1]]);
    expect(
      meanSquares([
        [1, 2],
        [null, 3],
      ]),
    ).toEqual({ ok: false, reason: 'too-few-values' });
    expect(meanSquares([[1], [2], [3]])).toEqual({ ok: false, reason: 'too-few-values' });
    expect(meanSquares([])).toEqual({ ok: false, reason: 'too-few-values' });
    expect(() => meanSquares([[1, 2], [3]])).toThrow(RangeError);
    expect(() =>
      meanSquares([
        [1, Number.NaN],
        [3, 4],
      ]),
    ).toThrow(RangeError);
  });
});

describe('error of a test', () => {
  // Values beyond the printed 7.6, 7.1, 10.2 are computed from the data of Weir 2005.
  it('typical error, its interval, detectable changes', () => {
    const { error, total } = squaresOf(weirA);
    const te = { value: Math.sqrt(error.mean), df: error.df };
    expect(te.value).toBeCloseTo(7.556927, 6);
    const ninetyFive = typicalErrorInterval(te);
    expect(ninetyFive.low).toBeCloseTo(4.996445, 6);
    expect(ninetyFive.high).toBeCloseTo(15.380402, 6);
    const ninety = typicalErrorInterval(te, 0.9);
    expect(ninety.low).toBeCloseTo(5.330787, 6);
    expect(ninety.high).toBeCloseTo(13.580937, 6);
    expect(detectableChange(te.value, detectableAt[95])).toBeCloseTo(20.946732, 5);
    expect(detectableChange(te.value, detectableAt[90])).toBeCloseTo(17.578729, 5);
    const errors = standardErrors({ total }, of(weirA, '3,1').value);
    expect(errors.sd).toBeCloseTo(31.748753, 5);
    expect(errors.measurement).toBeCloseTo(7.307999, 5);
    expect(errors.estimate).toBeCloseTo(7.111761, 5);
    expect(errors.prediction).toBeCloseTo(10.197255, 5);
    expect(trueScore(200, 150, 0.9)).toBeCloseTo(195, 12);
    const wider = typicalErrorInterval({ value: 5, df: 19 }, 0.9);
    expect(wider.low).toBeCloseTo(3.969628, 5);
    expect(wider.high).toBeCloseTo(6.852051, 5);
  });

  it('coefficient of variation from logs', () => {
    const logs = inLogs(weirA);
    if (!logs.ok) throw new Error(logs.reason);
    const { error } = squaresOf(logs.value);
    const te = typicalErrorInterval({ value: Math.sqrt(error.mean), df: error.df });
    expect(te.value).toBeCloseTo(5.032829, 5);
    const cv = coefficientOfVariation(te);
    expect(cv.value).toBeCloseTo(5.161627, 5);
    expect(cv.low).toBeCloseTo(3.383559, 5);
    expect(cv.high).toBeCloseTo(10.78617, 5);
    expect(percentOfLogs(learningSteps(logs.value)[0]?.change?.value as number)).toBeCloseTo(-1.511448, 5);
    expect(
      inLogs([
        [1, 0],
        [2, 3],
      ]),
    ).toEqual({ ok: false, reason: 'not-positive' });
    expect(
      inLogs([
        [1, null],
        [2, 3],
      ]).ok,
    ).toBe(true);
  });

  it('what is worth while', () => {
    const spread = Math.sqrt((32.771939 ** 2 + 32.888339 ** 2) / 2);
    const change = worthwhileChange(spread, 7.556927);
    expect(change.ok && change.value / 0.2).toBeCloseTo(31.948619, 5);
    expect(worthwhileChange(5, 5)).toEqual({ ok: false, reason: 'no-spread' });
    expect([usefulness(1, 2), usefulness(1, 1.05), usefulness(2, 1)]).toEqual(['finer', 'about-equal', 'coarser']);
    expect([testsToReach(2, 1), testsToReach(1, 2), testsToReach(2.1, 1)]).toEqual([4, 1, 5]);
  });

  it('pools by degrees of freedom', () => {
    const { value, df } = pooledError([
      { value: 3, df: 10 },
      { value: 4, df: 5 },
    ]);
    expect(df).toBe(15);
    expect(value).toBeCloseTo(Math.sqrt((10 * 9 + 5 * 16) / 15), 12);
  });
});

describe('learning', () => {
  it('change of the mean with its interval', () => {
    const [step] = learningSteps(weirA);
    expect(step?.change?.value).toBeCloseTo(-2.75, 12);
    expect(step?.change?.low).toBeCloseTo(-11.684646, 6);
    expect(step?.change?.high).toBeCloseTo(6.184646, 6);
    expect(step?.error).toEqual({ value: expect.closeTo(7.556927, 6), df: 7 });
    expect(step?.shifted).toBe(false);
  });

  it('keeps out what comes before the last shift, and says when it does not end', () => {
    const shift = (changes: readonly boolean[]) =>
      changes.map((shifted, from) => ({ from, people: 9, change: undefined, error: undefined, shifted }));
    expect(familiarisation(shift([true, false, false]))).toBe(1);
    expect(familiarisation(shift([false, true, false]))).toBe(2);
    expect(familiarisation(shift([false, false]))).toBe(0);
    expect(familiarisation(shift([false, true]))).toBeUndefined();
    expect(familiarisation([])).toBe(0);
  });

  it('uses everybody who has both occasions', () => {
    const steps = learningSteps([
      [1, 2, null],
      [2, 4, 5],
      [3, null, 4],
      [4, 5, 9],
    ]);
    expect(steps.map(({ people }) => people)).toEqual([3, 2]);
    expect(learningSteps([[1, 2]])[0]).toEqual({
      from: 0,
      people: 1,
      change: undefined,
      error: undefined,
      shifted: false,
    });
    expect(learningSteps([])).toEqual([]);
  });
});

describe('people with any number of values', () => {
  it('is the one-way correlation where all have as many', () => {
    const unequal = oneWay(targets);
    if (!unequal.ok || !unequal.value.icc.ok) throw new Error('none');
    expect(unequal.value.icc.value).toBeCloseTo(of(targets, '1,1').value, 12);
    expect(unequal.value.effective).toBeCloseTo(4, 12);
    expect(oneWay([[1], [2]])).toEqual({ ok: false, reason: 'too-few-values' });
    expect(oneWay([[1, 2]])).toEqual({ ok: false, reason: 'too-few-values' });
    const equal = oneWay([
      [2, 2],
      [2, 2],
    ]);
    expect(equal.ok && equal.value.icc).toEqual({ ok: false, reason: 'no-spread' });
  });
});
