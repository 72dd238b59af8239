import {
  detectablePercent,
  type IccForm,
  iccBands,
  iccForms,
  percentOfLogs,
  type ReliabilityStudy,
} from '@sthene/core/stats';
import { digits, lines, orReason, percentOf, withInterval } from '../../terminal/words.ts';
import type { NamedTable } from './table.ts';

const useful = {
  finer: 'finer than the smallest worthwhile change: one test can show it',
  'about-equal': 'about as large as the smallest worthwhile change',
  coarser: 'larger than the smallest worthwhile change: average several tests, or expect more',
} as const;

/** The study as a person reads it, with plain words beside each row. */
export function studyText(study: ReliabilityStudy, { occasions, people }: NamedTable, unit: string): string {
  const { error, scale, level, squares } = study;
  const log = scale === 'log';
  const on = log ? '%' : unit;
  const inPercent = (value: number) => digits(log ? percentOfLogs(value) : value, 2);
  const said: (readonly [string, string])[] = [
    ['people', `${study.complete} with every value of ${study.people}; ${study.values} values`],
    ...(study.small ? [['', 'fewer than ten people: provisional'] as const] : []),
    ...(study.leftOut.length > 0
      ? [['left out', `${study.leftOut.map((at) => people[at]).join(', ')} (a value is missing)`] as const]
      : []),
    ...study.occasions.map(
      ({ n, mean, sd }, j) =>
        [
          `  ${occasions[j]}`,
          mean === undefined
            ? 'no value'
            : `mean ${digits(mean, 2)} ${unit}, SD ${sd === undefined ? 'none' : digits(sd, 2)}, n = ${n}`,
        ] as const,
    ),
    ['intervals', `${percentOf(level)}${log ? '; errors, changes and correlations in logs' : ''}`],
    ['typical error', `${error_(study)} ${on}, df ${error.df}: how far one athlete's repeated values scatter`],
    ...(study.all === undefined
      ? []
      : [
          [
            '  from all values',
            orReason(
              study.all,
              ({ error: e, interval, icc }) =>
                `${inPercent(e.value)} (${inPercent(interval.low)} to ${inPercent(interval.high)}) ${on}, ICC(3,1) ${digits(icc)}; mixed model, REML`,
            ),
          ] as const,
        ]),
    ['detectable, 95 %', detectableText(study.detectable[95], log, unit)],
    ['detectable, 90 %', detectableText(study.detectable[90], log, unit)],
    [
      'worthwhile',
      orReason(study.worthwhile, (value) => `${inPercent(value)} ${on}: 0.2 of the spread of true levels`),
    ],
    ...(study.usefulness === undefined ? [] : [['', `the error is ${useful[study.usefulness]}`] as const]),
    ...(Object.keys(iccForms) as IccForm[]).map((form) => {
      const { also, of, means, definition } = iccForms[form];
      return [
        `ICC(${form})`,
        orReason(study.correlations[form], (one) => {
          const [low, high] = iccBands(one);
          return `${withInterval(one)}  ${low === high ? low : `${low} to ${high}`}; ${also}, ${of}, ${means}, ${definition}`;
        }),
      ] as const;
    }),
    [
      'shift of the mean',
      `F(${squares.shift.df.join(', ')}) = ${digits(squares.shift.f, 2)}, p = ${squares.shift.p < 0.001 ? '< 0.001' : digits(squares.shift.p)}`,
    ],
    ...study.steps.map(
      ({ from, people: n, change, shifted }) =>
        [
          `  ${occasions[from]} to ${occasions[from + 1]}`,
          change === undefined
            ? `too few people (${n})`
            : `${inPercent(change.value)} (${inPercent(change.low)} to ${inPercent(change.high)}) ${on}, n = ${n}${shifted ? ': a shift' : ''}`,
        ] as const,
    ),
    [
      'familiarisation',
      study.familiarisation === undefined
        ? 'the last step still shifts: this study does not say when learning stops'
        : study.familiarisation === 0
          ? 'no shift: nothing to keep out'
          : `keep the first ${study.familiarisation === 1 ? 'occasion' : `${study.familiarisation} occasions`} out`,
    ],
  ];
  return lines(said);

  function error_({ cv, error: { interval } }: ReliabilityStudy): string {
    const { value, low, high } = cv ?? interval;
    return `${digits(value, 2)} (${digits(low, 2)} to ${digits(high, 2)})`;
  }
}

function detectableText(change: number, log: boolean, unit: string): string {
  if (!log) return `${digits(change, 2)} ${unit}: two tests of somebody who did not change differ by less`;
  const { up, down } = detectablePercent(change);
  return `+${digits(up, 2)} % or -${digits(down, 2)} %: two tests of somebody who did not change differ by less`;
}
