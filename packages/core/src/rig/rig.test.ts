import { describe, expect, it } from 'vitest';
import { massOf, meanOf, normalGravity, standardGravity, weighingGravity, wgs84Early } from '../index.ts';
import { lineThroughZero } from './calibration-line.ts';
import {
  amplitudeAt,
  deadWeight,
  defaultLimits,
  gravityEntered,
  indicationErrors,
  judgeCheck,
  type LoadReading,
  lowerLimitFactor,
  lowerLimits,
  mainsWindow,
  plateFigures,
  provingClassOf,
  provingErrors,
  quantisation,
  type RigCheckDocument,
  systemClassOf,
  verifiedFrom,
} from './index.ts';

const near = (got: number | undefined, want: number, tolerance: number) =>
  expect(Math.abs((got ?? Number.NaN) - want)).toBeLessThanOrEqual(tolerance);

// FV-01: data and expected values of the methods reference (jumps and plates, 9.4), computed there in double precision.
const gravity = 9.8125;
const up = [0.1, 196.4, 392.9, 589.3, 785.6, 982.1, 1178.5, 1374.7, 1571.0, 1767.3, 1963.5];
const down = [0.4, 196.9, 393.5, 589.9, 786.2, 982.7, 1179.0, 1375.1, 1571.3, 1767.5, 1963.5];
const forces = up.map((_, i) => 20 * i * gravity);

const readings = (plate = 'only', series = 1): LoadReading[] =>
  (['up', 'down'] as const).flatMap((direction) =>
    forces.map((load, i) => ({
      ...{ plate, series, direction, spot: 'centre' as const, load, loadUncertainty: 0 },
      reading: (direction === 'up' ? up : down)[i] as number,
      origin: 'samples' as const,
    })),
  );

const documentOf = (given: readonly LoadReading[], plates = ['only']): RigCheckDocument => ({
  ...{ schema: 'sthene.rig-check/1', plates, gravity: gravityEntered(gravity, 0), airDensity: 1.2, masses: [] },
  ...{ limits: defaultLimits, corrected: [], readings: given, rest: [], taps: [], balance: [], cell: [] },
});

describe('FV-01: static verification with known masses', () => {
  const figures = plateFigures('only', readings());

  it('the line and its residuals', () => {
    if (!figures.line.ok) throw new Error(figures.line.reason);
    const line = figures.line.value;
    near(line.slope, 1.0005141865, 1e-8);
    near(line.offset, 0.190909091, 1e-6);
    const wanted = [-0.0909, -0.1418, 0.0073, 0.0564, 0.0055, 0.1545, 0.2036, 0.0527, 0.0018, -0.0491, -0.2];
    wanted.forEach((want, i) => void near(line.residuals[i], want, 1e-4));
    near(line.largestResidual, 0.203636, 1e-5);
    near(figures.linearity, 0.010376, 1e-5);
    near(line.standardError, 0.12569001, 1e-7);
  });

  it('the line through zero', () => {
    const line = lineThroughZero(forces, up);
    if (!line.ok) throw new Error(line.reason);
    near(line.value.slope, 1.000653156, 1e-6);
    near(line.value.largestResidual, 0.281818, 1e-6);
    near((100 * line.value.largestResidual) / figures.largestLoad, 0.01436, 1e-6);
  });

  it('hysteresis, relative errors and zero return', () => {
    near(figures.hysteresis, 0.030573, 1e-5);
    near(Math.max(...figures.loads.map(({ hysteresis }) => hysteresis ?? 0)), 0.6, 1e-9);
    const wanted = [0.0764, 0.1019, 0.0934, 0.0764, 0.0866, 0.0849, 0.0692, 0.0637, 0.0594, 0.051];
    wanted.forEach((want, i) => void near(figures.loads[i + 1]?.relativeError, want, 1e-4));
    near(figures.zeroReturn?.newtons, 0.3, 1e-9);
    near(figures.zeroReturn?.share, 0.015287, 1e-5);
  });

  it('passes on the default limits', () => {
    const { quantities, verdict, shortfalls } = judgeCheck(documentOf(readings()));
    expect(quantities.map(({ id, standing }) => [id, standing])).toEqual([
      ['gain', 'pass'],
      ['offset', 'pass'],
      ['linearity', 'pass'],
      ['hysteresis', 'pass'],
      ['relative-error', 'pass'],
      ['small-load-error', 'pass'],
      ['zero-return', 'pass'],
    ]);
    // The data are one series; three are wanted, so somebody should look.
    expect(shortfalls.map(({ code }) => code)).toEqual(['one-series']);
    expect(verdict).toBe('look');
    const three = [1, 2, 3].flatMap((series) => readings('only', series));
    expect(judgeCheck(documentOf(three)).verdict).toBe('passes');
  });
});

// FV-02 to FV-07 and SP-09, SP-10: calculated values of the methods reference; class tables from memory there.
describe('formulas of standards', () => {
  it('FV-02: errors of indication', () => {
    const got = indicationErrors(1000, [998.2, 999.1, 1000.4]);
    near(got.meanForce, 999.233333, 1e-5);
    near(got.error, 0.076725, 1e-5);
    [0.180325, 0.090081, -0.039984].forEach((want, i) => void near(got.byRun[i], want, 1e-5));
    near(got.repeatability, 0.220309, 1e-5);
    expect(systemClassOf({ error: got.error, repeatability: got.repeatability })).toBe('0.5');
    expect(systemClassOf({ error: 0.6 })).toBe('1');
    expect(systemClassOf({ error: 3.1 })).toBeUndefined();
  });

  it('FV-03: errors of a proving instrument', () => {
    const got = provingErrors({
      ...{ x1: 2.0001, x2: 2.00014, x3: 2.0004, x5: 1.9998, fitted: 2.00005, x4: 2.0006, x6: 2.0001 },
      ...{ top: 2, zeroChange: 0.00009 },
    });
    near(got.reproducibility, 0.029999, 1e-5);
    near(got.repeatability, 0.002, 1e-5);
    near(got.interpolation, 0.0025, 1e-5);
    near(got.zero, 0.0045, 1e-5);
    near(got.reversibility, 0.0125, 1e-5);
    expect(provingClassOf(got)).toBe('00');
  });

  it('FV-04: lower limit factor', () => {
    const deviations = [12, -8, 3, -10, 6, 9, -7, -4, 11, -12].map((d) => d * 1e-5);
    const [line, parabola] = [lowerLimitFactor(deviations, 1), lowerLimitFactor(deviations, 2)];
    near(line.sd, 9.77241e-5, 1e-9);
    near(line.factor, 2.345378e-4, 1e-9);
    near(parabola.sd, 1.0447146e-4, 1e-9);
    near(parabola.factor, 2.507315e-4, 1e-9);
  });

  it('FV-05: lower force limits', () => expect(verifiedFrom(0.25)).toEqual({ a: 100, aa: 500 }));

  it('FV-06: lower limits from the resolution', () =>
    expect(lowerLimits(0.5).map((one) => [one.class, one.force])).toEqual([
      ['0.5', 200],
      ['1', 100],
      ['2', 50],
      ['3', 33.5],
    ]));

  it('FV-07: buoyancy', () => near(deadWeight(100, 9.81), 980.85285, 1e-4));
});

describe('gravity of the site', () => {
  it('GR-01 to GR-03: normal gravity', () => {
    const wanted = [9.7803253359, 9.7932472693, 9.8061977694, 9.8191769531, 9.8321849379];
    [0, 30, 45, 60, 90].forEach((latitude, i) => void near(normalGravity(latitude), wanted[i] as number, 1e-9));
    near(normalGravity(45, 0, wgs84Early), 9.8061992025, 1e-9);
    near(normalGravity(45, 1000), 9.8031129436, 1e-8);
    near(normalGravity(51.5, 200), 9.8114165911, 1e-8);
    near(normalGravity(40, 1600), 9.7967612377, 1e-8);
  });

  it('GR-04 and GR-05: of weighing practice', () => {
    near(weighingGravity(52.3, 80), 9.812483709897048, 1e-12);
    const wanted = [9.780318, 9.8061908532, 9.8321771582, 9.7967539396, 9.7957865505];
    const places = [
      [0, 0],
      [45, 0],
      [90, 0],
      [40, 1600],
      [35, 500],
    ] as const;
    places.forEach(([latitude, altitude], i) => {
      near(weighingGravity(latitude, altitude), wanted[i] as number, 1e-9);
    });
  });

  it('GR-06: mass of a weight', () => {
    near(massOf(980, 9.78), 100.204499, 1e-5);
    near(massOf(980, standardGravity), 99.932189, 1e-5);
  });
});

describe('converter and mains', () => {
  it('SP-09: steps and their SD', () => {
    const wanted = [
      [12, 2.44140625, 0.704773],
      [16, 0.152587891, 0.0440483],
      [24, 5.96046e-4, 1.72064e-4],
    ] as const;
    for (const [bits, step, sd] of wanted) {
      near(quantisation(10_000, bits).step, step, 1e-6);
      near(quantisation(10_000, bits).sd, sd, 1e-6);
    }
  });

  it('SP-10: a window of whole periods is free of hum', () => {
    const window = mainsWindow(1000, 50);
    expect(window).toEqual({ ok: true, value: 20 });
    expect(mainsWindow(1000, 60)).toEqual({ ok: true, value: 50 });
    const hum = Array.from({ length: 20 }, (_, i) => 3 * Math.sin((2 * Math.PI * 50 * i) / 1000));
    near(meanOf(hum), 0, 1e-12);
    near(amplitudeAt(hum, 50, 1000), 3, 1e-9);
    expect(mainsWindow(1000.37, 50)).toEqual({ ok: false, reason: 'not-defined' });
  });
});
