import {
  detectablePercent,
  type IccForm,
  iccBands,
  iccForms,
  percentOfLogs,
  type ReliabilityStudy,
} from '@sthene/core/stats';
import type { ReliabilityInput } from '../input/reliability.ts';
import { type Cell, none, type Table, text } from '../model/table.ts';
import { decimalsFor } from '../text/numbers.ts';
import type { Pen } from './frame.ts';
import { scaleText } from './say.ts';

/** The study as a paper prints it: value, interval, and what it says. */
export function studyTable(
  study: ReliabilityStudy,
  { metric: { unit } }: Pick<ReliabilityInput, 'metric'>,
  title: string,
  { words, numbers }: Pen,
): Table {
  const w = words.reliability;
  const log = study.scale === 'log';
  /** Of an error or a change: people read per cent with its sign, machines the number. */
  const amount = (value: number): Cell => ({
    text: scaleText(value, study.scale, unit, numbers),
    value: log ? percentOfLogs(value) : value,
  });
  const ratio = (value: number): Cell => ({ text: numbers.fixed(value, 3), value });
  const three = ({ value, low, high }: { value: number; low: number; high: number }, cell: (n: number) => Cell) => [
    cell(value),
    cell(low),
    cell(high),
  ];
  const alone = (cell: Cell) => [cell, none, none];
  const { error, all, worthwhile, squares } = study;
  const rows: (readonly Cell[])[] = [
    [
      text(w.error),
      ...three({ ...error.interval, value: error.value }, amount),
      text(w.errorSays(numbers.fixed(error.df, 0))),
    ],
    ...(all?.ok
      ? [
          [
            text(w.all),
            ...three({ ...all.value.interval, value: all.value.error.value }, amount),
            text(w.allSays(numbers.fixed(all.value.icc, 3))),
          ],
        ]
      : []),
    ...([95, 90] as const).map((level) => [
      text(w.detectable(level)),
      ...alone(detectable(study.detectable[level])),
      text(level === 95 ? w.detectableSays : ''),
    ]),
    [
      text(w.worthwhile),
      ...alone(worthwhile.ok ? amount(worthwhile.value) : text(w.undefinedHere)),
      text(w.worthwhileSays),
    ],
    ...(Object.keys(iccForms) as IccForm[]).map((form) => {
      const found = study.correlations[form];
      if (!found.ok) return [text(`ICC(${form})`), ...alone(text(w.undefinedHere)), text(w.forms[form] ?? '')];
      const [low, high] = iccBands(found.value);
      const band = low === high ? w.bands[low] : `${w.bands[low]} ${words.common.to} ${w.bands[high]}`;
      return [text(`ICC(${form})`), ...three(found.value, ratio), text(`${w.forms[form] ?? ''}; ${band}`)];
    }),
    [
      text(w.shift),
      ...alone({ text: `F = ${numbers.fixed(squares.shift.f, 2)}`, value: squares.shift.f }),
      text(
        w.shiftSays(
          squares.shift.df.join(', '),
          squares.shift.p < 0.001 ? `< ${numbers.fixed(0.001, 3)}` : `= ${numbers.fixed(squares.shift.p, 3)}`,
        ),
      ),
    ],
  ];
  return {
    id: 'reliability',
    title: `${title}: ${w.study}`,
    columns: [
      { id: 'what', title: w.head.what, align: 'left' },
      { id: 'value', title: w.head.value, align: 'right' },
      { id: 'low', title: w.head.low, align: 'right' },
      { id: 'high', title: w.head.high, align: 'right' },
      { id: 'says', title: w.head.says, align: 'left' },
    ],
    rows,
  };

  /** Up and down differ in per cent. */
  function detectable(change: number): Cell {
    if (!log) return { text: numbers.quantity(change, unit), value: change };
    const { up, down } = detectablePercent(change);
    return { text: `+${numbers.percent(up)}, \u2212${numbers.percent(down)}`, value: up };
  }
}

/** The mean change from each session to the next. */
export function stepTable(
  study: ReliabilityStudy,
  { metric: { unit }, sessions }: Pick<ReliabilityInput, 'metric' | 'sessions'>,
  { words, numbers }: Pen,
): Table {
  const w = words.reliability;
  const log = study.scale === 'log';
  const cell = (value: number | undefined): Cell => {
    if (value === undefined) return none;
    const own = log ? percentOfLogs(value) : value;
    return { text: numbers.signed(own, log ? 1 : decimalsFor(unit, own)), value: own };
  };
  const name = (at: number) => w.step(sessions - 1 - at);
  const of = log ? '%' : unit;
  return {
    id: 'steps',
    title: w.steps,
    columns: [
      { id: 'from', title: w.stepHead.from, align: 'left' },
      { id: 'athletes', title: w.stepHead.n, align: 'right' },
      { id: 'change', title: `${w.stepHead.change}, ${of}`, unit: of, align: 'right' },
      { id: 'low', title: w.stepHead.low, unit: of, align: 'right' },
      { id: 'high', title: w.stepHead.high, unit: of, align: 'right' },
      { id: 'says', title: w.stepHead.says, align: 'left' },
    ],
    rows: study.steps.map(({ from, people, change, shifted }) => [
      text(w.stepTo(name(from), name(from + 1))),
      { text: String(people), value: people },
      cell(change?.value),
      cell(change?.low),
      cell(change?.high),
      text(change === undefined ? '' : shifted ? w.shifted : w.notShifted),
    ]),
  };
}
