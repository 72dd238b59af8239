import type { Outcome } from '../outcome.ts';
import { meanOf, sdOf } from '../signal/index.ts';
import { type CalibrationLine, calibrationLine } from './calibration-line.ts';
import { byLoad, type LoadReading } from './reading.ts';

/** What a plate showed under one load. */
export interface LoadFigures {
  /** True force, N. */
  readonly load: number;
  readonly loadUncertainty: number;
  /** Mean going up over the series, N. */
  readonly up?: number;
  /** Mean coming down over the series, N. */
  readonly down?: number;
  /** Mean going up less the true force, N. */
  readonly error?: number;
  /** The same, % of the true force; absent at zero. */
  readonly relativeError?: number;
  /** Largest less smallest going up over the series, % of their mean; absent at zero and with one series. */
  readonly spread?: number;
  /** Largest absolute difference down less up within a series, N; absent without both. */
  readonly hysteresis?: number;
}

/** Everything one plate showed at its centre. Shares are of the largest load. */
export interface PlateFigures {
  readonly plate: string;
  /** How many series there are. */
  readonly series: number;
  /** Largest true force, N; 0 without a load. */
  readonly largestLoad: number;
  readonly loads: readonly LoadFigures[];
  /** Through the mean readings going up. */
  readonly line: Outcome<CalibrationLine>;
  /** Largest residual from the line, % of the largest load. */
  readonly linearity?: number;
  /** % of the largest load. */
  readonly hysteresis?: number;
  /** Worst spread of the loads, %. */
  readonly repeatability?: number;
  /** SD of repeated readings going up, N, pooled over the loads; absent with one series. */
  readonly repeatabilitySd?: number;
  /** Zero after less zero before of the worst series, N with its sign, and as % of the largest load. */
  readonly zeroReturn?: { readonly newtons: number; readonly share: number };
  /** Change of the zero before from one series to the next, worst, N with its sign. */
  readonly zeroDrift?: number;
  /** SD within the windows, N: root of the mean square; absent where all was typed. */
  readonly noise?: number;
}

/**
 * Figures of one plate from its readings at the centre, by the definitions of the methods reference (3.10).
 *
 * @param readings of this plate; those at other spots are left out
 */
export function plateFigures(plate: string, readings: readonly LoadReading[]): PlateFigures {
  const own = readings.filter((one) => one.plate === plate && one.spot === 'centre');
  const groups = byLoad(own);
  const largestLoad = groups.at(-1)?.load ?? 0;
  const loads = groups.map(({ load, readings: at }) => loadFigures(load, at));
  const known = loads.filter(({ up }) => up !== undefined);
  const line = calibrationLine(
    known.map(({ load }) => load),
    known.map(({ up }) => up as number),
  );
  const share = (newtons: number) => (100 * newtons) / largestLoad;
  const hysteresis = largestOf(loads.flatMap((one) => one.hysteresis ?? []));
  const repeatability = largestOf(loads.flatMap((one) => one.spread ?? []));
  const zeroReturn = worstOf(zeroReturns(own));
  const repeatabilitySd = pooledSd(groups.map(({ readings: at }) => going(at, 'up')));
  const zeroDrift = worstOf(steps(zerosBefore(own)));
  const sds = own.flatMap(({ sd }) => sd ?? []);
  return {
    ...{ plate, series: new Set(own.map(({ series }) => series)).size, largestLoad, loads, line },
    ...(line.ok && largestLoad > 0 ? { linearity: share(line.value.largestResidual) } : {}),
    ...(hysteresis === undefined || largestLoad === 0 ? {} : { hysteresis: share(hysteresis) }),
    ...(repeatability === undefined ? {} : { repeatability }),
    ...(repeatabilitySd === undefined ? {} : { repeatabilitySd }),
    ...(zeroReturn === undefined || largestLoad === 0
      ? {}
      : { zeroReturn: { newtons: zeroReturn, share: share(zeroReturn) } }),
    ...(zeroDrift === undefined ? {} : { zeroDrift }),
    ...(sds.length === 0 ? {} : { noise: Math.sqrt(meanOf(sds.map((sd) => sd * sd))) }),
  };
}

const going = (readings: readonly LoadReading[], direction: LoadReading['direction']): number[] =>
  readings.filter((one) => one.direction === direction).map(({ reading }) => reading);

function loadFigures(load: number, readings: readonly LoadReading[]): LoadFigures {
  const up = going(readings, 'up');
  const down = going(readings, 'down');
  const mean = up.length === 0 ? undefined : meanOf(up);
  const hysteresis = largestOf(hysteresisBySeries(readings));
  return {
    ...{ load, loadUncertainty: Math.max(...readings.map(({ loadUncertainty }) => loadUncertainty)) },
    ...(mean === undefined ? {} : { up: mean, error: mean - load }),
    ...(mean === undefined || load === 0 ? {} : { relativeError: (100 * (mean - load)) / load }),
    ...(down.length === 0 ? {} : { down: meanOf(down) }),
    ...(mean === undefined || load === 0 || up.length < 2
      ? {}
      : { spread: (100 * (Math.max(...up) - Math.min(...up))) / mean }),
    ...(hysteresis === undefined ? {} : { hysteresis }),
  };
}

function hysteresisBySeries(readings: readonly LoadReading[]): number[] {
  return [...new Set(readings.map(({ series }) => series))].flatMap((series) => {
    const own = readings.filter((one) => one.series === series);
    const [up, down] = [going(own, 'up'), going(own, 'down')];
    return up.length === 0 || down.length === 0 ? [] : [Math.abs(meanOf(down) - meanOf(up))];
  });
}

/** Zeros of each series, in order of the series. */
function zerosOf(readings: readonly LoadReading[], direction: LoadReading['direction']): Map<number, number> {
  const zeros = readings.filter((one) => one.load === 0 && one.direction === direction);
  return new Map(zeros.sort((a, b) => a.series - b.series).map(({ series, reading }) => [series, reading]));
}

const zerosBefore = (readings: readonly LoadReading[]): number[] => [...zerosOf(readings, 'up').values()];

function zeroReturns(readings: readonly LoadReading[]): number[] {
  const after = zerosOf(readings, 'down');
  return [...zerosOf(readings, 'up')].flatMap(([series, before]) => {
    const end = after.get(series);
    return end === undefined ? [] : [end - before];
  });
}

const steps = (values: readonly number[]): number[] => values.slice(1).map((value, i) => value - (values[i] as number));

/** SD pooled over groups of repeated readings: sqrt(sum (n - 1) s^2 / sum (n - 1)). */
function pooledSd(groups: readonly (readonly number[])[]): number | undefined {
  let [squares, freedom] = [0, 0];
  for (const group of groups) {
    if (group.length < 2) continue;
    squares += (group.length - 1) * sdOf(group) ** 2;
    freedom += group.length - 1;
  }
  return freedom === 0 ? undefined : Math.sqrt(squares / freedom);
}

const largestOf = (values: readonly number[]): number | undefined =>
  values.length === 0 ? undefined : Math.max(...values);

/** The value that is furthest from zero, with its sign. */
const worstOf = (values: readonly number[]): number | undefined =>
  values.length === 0 ? undefined : values.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
