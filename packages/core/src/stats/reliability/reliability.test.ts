import { describe, expect, it } from 'vitest';
import { sdOf } from '../../signal/index.ts';
import { fisherF, whereItIs } from '../distributions/index.ts';
import { straightLine } from '../regression.ts';
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

// JP-10, worked by hand: height of a countermovement jump, cm, eight made-up people on two days. Mean squares and ICCs by Shrout & Fleiss
// 1979, typical error by Hopkins 2000, detectable change by Weir 2005.
const jumpHeights = [
  [34.1, 35.0],
  [38.5, 37.6],
  [29.7, 30.5],
  [41.2, 42.1],
  [36.0, 35.2],
  [32.8, 33.9],
  [45.3, 44.6],
  [30.4, 31.5],
];

it('JP-10: jump heights on two days', () => {
  const near = (got: number, wanted: number) => expect(Math.abs(got - wanted), `${got}`).toBeLessThan(1e-5);
  const squares = squaresOf(jumpHeights);
  const error = Math.sqrt(squares.error.mean);
  near(squares.mean, 36.15);
  near(learningSteps(jumpHeights)[0]?.change?.value ?? Number.NaN, 0.3);
  near(squares.between.mean, 53.041429);
  near(squares.occasion.mean, 0.36);
  near(squares.error.mean, 0.421429);
  near(error, 0.6491753);
  near((100 * error) / squares.mean, 1.795782);
  near(detectableChange(error, detectableAt[95]), 1.7994221);
  near(of(jumpHeights, '3,1').value, 0.9842347);
  near(of(jumpHeights, '2,1').value, 0.9845175);
  // In logs, 100 (exp(TE) - 1) %.
  const inLog = Math.sqrt(squaresOf(jumpHeights.map((row) => row.map(Math.log))).error.mean);
  near(100 * Math.expm1(inLog), 1.846984);
  // Of the first day's SD, with no error taken off: the program takes it off, so an error of nothing is asked for.
  const worthwhile = worthwhileChange(sdOf(jumpHeights.map(([first]) => first as number)), 0);
  near(worthwhile.ok ? worthwhile.value : Number.NaN, 1.0814805);
});

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

  it('takes the published degrees of freedom for the interval of agreement', () => {
    // Solved back from the lower limit: it is n (b - F e) / (F (k j + (k n - k - n) e) + n b), and F has 5 and v degrees of freedom. The
    // methods reference, 9.2 (calc), gives a = 0.271988, b = 2.359942, v = 4.785144 by McGraw & Wong 1996; v alone reaches the limit.
    const { between, occasion, error } = squaresOf(targets);
    const { value, low } = of(targets, '2,1');
    const [b, j, e] = [between.mean, occasion.mean, error.mean];
    const f = (6 * b * (1 - low)) / (low * (4 * j + 14 * e) + 6 * e);
    expect(f).toBeCloseTo(7.4986275935, 6);
    expect(Math.abs(whereItIs(f, (df) => fisherF.quantile(0.975, 5, df), 3, 8) - 4.785144)).toBeLessThan(1e-4);
    // With rho = 10.2222/35.2778 exactly, b is 2.359941; the collection prints one more in the last digit, within its tolerance.
    expect((4 * value) / (6 * (1 - value))).toBeCloseTo(0.271988, 6);
    expect(Math.abs(1 + (4 * value * 5) / (6 * (1 - value)) - 2.359942)).toBeLessThan(1e-4);
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
    for (const [table, people] of [
      [weirA, 14689.75],
      [weirB, 1329.75],
    ] as const) {
      const { between, occasion, error, within, shift } = squaresOf(table);
      const sums = [between, occasion, error, within].map(({ sum }) => sum);
      for (const [i, wanted] of [people, 30.25, 399.75, 430].entries()) expect(sums[i]).toBeCloseTo(wanted, 9);
      expect(between.mean).toBeCloseTo(people / 7, 6);
      expect(within.mean).toBeCloseTo(53.75, 6);
      expect(Math.sqrt(within.mean)).toBeCloseTo(7.331439, 6);
      expect(error.mean).toBeCloseTo(57.107143, 6);
      expect(shift.f).toBeCloseTo(0.529706, 6);
      expect(shift.p).toBeCloseTo(0.490353, 6);
    }
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

  it('errors follow the unit, and only a share of the mean moves with a common number (9.14)', () => {
    const te = (table: readonly (readonly number[])[]) => Math.sqrt(squaresOf(table).error.mean);
    const cv = (table: readonly (readonly number[])[]) => {
      const logs = inLogs(table);
      if (!logs.ok) throw new Error(logs.reason);
      const { error } = squaresOf(logs.value);
      return coefficientOfVariation(typicalErrorInterval({ value: Math.sqrt(error.mean), df: error.df })).value;
    };
    const inKilo = weirA.map((row) => row.map((value) => value / 1000));
    expect(te(inKilo)).toBeCloseTo(te(weirA) / 1000, 12);
    expect(detectableChange(te(inKilo), 1.96)).toBeCloseTo(detectableChange(te(weirA), 1.96) / 1000, 12);
    expect(cv(inKilo)).toBeCloseTo(cv(weirA), 9);
    const higher = weirA.map((row) => row.map((value) => value + 1000));
    expect(te(higher)).toBeCloseTo(te(weirA), 9);
    expect(of(higher, '2,1').value).toBeCloseTo(of(weirA, '2,1').value, 9);
    expect(cv(higher)).toBeLessThan(cv(weirA) / 5);
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

  it('is the same where the differences are, and its share of the spread is not', () => {
    const { error, total } = squaresOf(weirB);
    const te = Math.sqrt(error.mean);
    expect(te).toBeCloseTo(7.556927, 6);
    expect(typicalErrorInterval({ value: te, df: error.df }).high).toBeCloseTo(15.380402, 6);
    expect(detectableChange(te, detectableAt[95])).toBeCloseTo(20.946732, 5);
    const errors = standardErrors({ total }, of(weirB, '3,1').value);
    expect(errors.sd).toBeCloseTo(10.831282, 5);
    expect(errors.measurement).toBeCloseTo(7.364255, 5);
    expect(errors.estimate).toBeCloseTo(5.400202, 5);
    expect(errors.prediction).toBeCloseTo(9.132055, 5);
    const logs = inLogs(weirB);
    if (!logs.ok) throw new Error(logs.reason);
    const inLog = squaresOf(logs.value).error;
    const logError = typicalErrorInterval({ value: Math.sqrt(inLog.mean), df: inLog.df });
    expect(logError.value).toBeCloseTo(4.933972, 5);
    const cv = coefficientOfVariation(logError);
    for (const [got, wanted] of [
      [cv.value, 5.05772],
      [cv.low, 3.316009],
      [cv.high, 10.563492],
      [percentOfLogs(learningSteps(logs.value)[0]?.change?.value as number), -1.96991],
    ] as const)
      expect(got).toBeCloseTo(wanted, 5);
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
    const te = Math.sqrt(399.75 / 7);
    for (const [table, sds, raw, trueSd, r] of [
      [weirA, [32.771939, 32.888339], 6.566038, 31.948619, 0.947022],
      [weirB, [8.263517, 13.371078], 2.222932, 8.150372, 0.601206],
    ] as const) {
      const trials = [0, 1].map((trial) => table.map((row) => row[trial] as number)) as [number[], number[]];
      const found = trials.map((trial) => sdOf(trial));
      for (const [i, sd] of sds.entries()) expect(found[i]).toBeCloseTo(sd, 6);
      const spread = Math.sqrt(found.reduce((sum, sd) => sum + sd ** 2, 0) / 2);
      // Of a test without error all spread is true.
      const whole = worthwhileChange(spread, 0);
      expect(whole.ok && whole.value).toBeCloseTo(raw, 5);
      const change = worthwhileChange(spread, te);
      expect(change.ok && change.value / 0.2).toBeCloseTo(trueSd, 5);
      expect(straightLine(...trials)?.r).toBeCloseTo(r, 6);
    }
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
    for (const table of [weirA, weirB]) {
      const [step] = learningSteps(table);
      expect(step?.change?.value).toBeCloseTo(-2.75, 12);
      expect(step?.change?.low).toBeCloseTo(-11.684646, 6);
      expect(step?.change?.high).toBeCloseTo(6.184646, 6);
      expect(step?.error).toEqual({ value: expect.closeTo(7.556927, 6), df: 7 });
      // The typical error of a pair is the SD of its changes over sqrt 2.
      expect((step?.error?.value as number) * Math.SQRT2).toBeCloseTo(10.687108, 6);
      expect(step?.shifted).toBe(false);
    }
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
