import type { RatioFacts, RatioSideFacts, TestedFacts } from '../input/battery.ts';
import { type Cell, none, type Table, text } from '../model/table.ts';
import { decimalsFor, type Numbers, unitText } from '../text/numbers.ts';
import { metricTitle } from '../words/trade/metrics.ts';
import { testTitle } from '../words/trade/tests.ts';
import type { Pen } from './frame.ts';

/** A ratio by two decimals, as its limits are; a share in per cent by one. */
export const ratioText = (value: number, unit: string, numbers: Numbers): string =>
  unit === '%' ? numbers.percent(value) : numbers.fixed(value, 2);

/** Stands behind an error of one session's efforts, and before the sentence that says so. */
const trialsMark = '*';

/** Whether an error is that of one session's efforts, which holds nothing of the day. */
export const ofTrials = ({ error, errorFrom }: TestedFacts): boolean => error !== undefined && errorFrom === 'trials';

/** An error with the decimals of its value; one of a session's efforts alone is marked. */
function error(one: TestedFacts, { numbers }: Pen): Cell {
  const { error, unit, value } = one;
  if (error === undefined) return none;
  const mark = ofTrials(one) ? `\u00a0${trialsMark}` : '';
  return {
    text: `±\u202f${numbers.fixed(error, decimalsFor(unit, value))}\u00a0${unitText(unit)}${mark}`,
    value: error,
  };
}

/** Each test by the value its efforts are ranked by. */
export function testsTable(tests: readonly TestedFacts[], pen: Pen): Table {
  const { words, numbers, dates, frame } = pen;
  const { head, ...w } = words.battery;
  return {
    id: 'tests',
    title: w.tests,
    columns: [
      { id: 'test', title: head.test, align: 'left' },
      { id: 'day', title: head.when, align: 'left' },
      { id: 'metric', title: head.metric, align: 'left' },
      { id: 'value', title: head.value, align: 'right' },
      { id: 'error', title: head.error, align: 'right' },
      { id: 'efforts', title: head.n, align: 'right' },
    ],
    rows: tests.map((one) => [
      text(testTitle(one.test, frame.language), one.test),
      text(dates.short(one.at), dates.iso(one.at)),
      text(metricTitle(one.metric, frame.language), one.metric),
      { text: numbers.quantity(one.value, one.unit), value: one.value },
      error(one, pen),
      { text: w.ofMaximal(one.n, one.maximal), value: one.n },
    ]),
  };
}

/** Each ratio, and below it both of its sides; or why it is not given. */
export function ratiosTable(ratios: readonly RatioFacts[], pen: Pen): Table {
  const { head, ...w } = pen.words.battery;
  return {
    id: 'ratios',
    title: w.ratios,
    columns: [
      { id: 'ratio', title: head.ratio, align: 'left' },
      { id: 'side', title: head.side, align: 'left' },
      { id: 'day', title: head.when, align: 'left' },
      { id: 'value', title: head.value, align: 'right' },
      { id: 'error', title: head.error, align: 'right' },
      { id: 'interval', title: '95\u00a0%', align: 'left' },
      { id: 'word', title: head.word, align: 'left' },
    ],
    rows: ratios.flatMap((one) => ratioRows(one, pen)),
  };
}

function ratioRows(ratio: RatioFacts, pen: Pen): Cell[][] {
  const { words, numbers, dates } = pen;
  const w = words.battery;
  const { id, unit, current } = ratio;
  const name = text(w.names[id], id);
  if (current === undefined)
    return [[name, text(lackText(ratio, pen), ''), none, none, none, none, text('', ratio.lack?.reason)]];
  const { interval, word, because } = current;
  const why = because === undefined ? '' : `: ${w.because[because]}`;
  const all: Cell[] = [
    name,
    text(w.made[id], ''),
    text(dates.short(current.at), dates.iso(current.at)),
    { text: ratioText(current.value, unit, numbers), value: current.value },
    current.error === undefined
      ? none
      : { text: `±\u202f${ratioText(current.error, unit, numbers)}`, value: current.error },
    interval === undefined
      ? none
      : text(
          [interval.low, words.common.to, interval.high]
            .map((one) => (typeof one === 'number' ? ratioText(one, unit, numbers) : one))
            .join('\u00a0'),
          `${interval.low} ${interval.high}`,
        ),
    text(`${w.word[word]}${why}`, word),
  ];
  return [all, ...current.components.map((side) => sideRow(id, side, pen))];
}

function sideRow(id: RatioFacts['id'], side: RatioSideFacts, pen: Pen): Cell[] {
  const { words, numbers, dates } = pen;
  const w = words.battery;
  return [
    text('', `${id}.${side.role}`),
    text(w.roles[side.role], side.test),
    text(dates.short(side.at), dates.iso(side.at)),
    { text: numbers.quantity(side.value, side.unit), value: side.value },
    error(side, pen),
    none,
    text(`${words.battery.head.n}: ${w.ofMaximal(side.n, side.maximal)}`, String(side.n)),
  ];
}

/** Why a ratio is not given, in a few words. */
function lackText({ lack }: RatioFacts, { words, numbers, frame }: Pen): string {
  if (lack === undefined) return '';
  const w = words.battery;
  const tests = lack.tests.map((test) => testTitle(test, frame.language)).join(', ');
  const days = lack.days === undefined ? '' : numbers.fixed(lack.days, 0);
  return [w.lack[lack.reason](tests, days), ...(lack.received === 0 ? [] : [w.received(lack.received)])].join('; ');
}
