import { squadFigure } from '../figure/squad-lines.ts';
import type { ChangeFacts, ReportFrame } from '../input/common.ts';
import type { SquadInput, SquadRowFacts } from '../input/squad.ts';
import type { Block, ReportDocument } from '../model/document.ts';
import { none, type Table, text } from '../model/table.ts';
import { unitText } from '../text/numbers.ts';
import { metricTitle } from '../words/trade/metrics.ts';
import { testTitle, unlikeTitle } from '../words/trade/tests.ts';
import { documentOf, newestOf, type Pen, penOf } from './frame.ts';
import { ageOn, asMinor, tellsMass } from './minors.ts';
import { rigCheckText } from './rig-check.ts';
import { differenceText, isSure, wordMark, wordText } from './say.ts';

/** Lines of the figure that are legible on one page. */
const mostLines = 48;

interface Row extends SquadRowFacts {
  /** Under 18, or reported as such. */
  readonly young: boolean;
}

/**
 * A squad in the order of names: nobody is ranked. Whoever is under 18 has no place in the squad and, where the value tells body mass, no
 * value either.
 */
export function squadReport(input: SquadInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const { metric } = input;
  const rows = input.rows.map((row): Row => ({ ...row, young: isYoung(row, pen) }));
  const secret = tellsMass(metric);
  const shown = rows.filter(({ young }) => !(secret && young));
  const valued = shown.filter(({ value }) => value !== undefined);
  // Of those who are shown, so that the sentence and the table say the same.
  const changes = valued.flatMap(({ change }) => change ?? []);
  const w = pen.words.squad;
  const title = metricTitle(metric.id, frame.language);
  const squad = input.squad ?? w.everybody;
  const chance = input.scale === 'log' && metric.better !== 'neither' ? w.chance : w.chanceUnit;
  const young = rows.filter((row) => row.young).length;
  const blocks: Block[] = [
    { kind: 'paragraph', text: `${testTitle(input.test, frame.language)}. ${title}.` },
    ...(valued.length === 0
      ? [{ kind: 'paragraph', text: w.none, style: 'lead' } as const]
      : [
          {
            kind: 'paragraph',
            text: w.lead(valued.length, changes.length),
            style: 'lead',
          } as const,
          {
            kind: 'paragraph',
            text: chance(changes.filter(({ word }) => isSure(word)).length, byChance(changes, pen)),
          } as const,
          valued.length > mostLines
            ? ({ kind: 'paragraph', text: w.noFigure(mostLines), style: 'small' } as const)
            : figureOf(input, valued, title, pen),
        ]),
    { kind: 'table', table: tableOf(input, shown, title, pen) },
    { kind: 'paragraph', text: w.order, style: 'small' },
    ...(young === 0
      ? []
      : [{ kind: 'paragraph', text: secret ? w.minorsMass(young) : w.minors(young), style: 'small' } as const]),
    {
      kind: 'paragraph',
      text: `${pen.words.common.rigCheck(rigCheckText(input.rigChecks ?? [], pen))}.`,
      style: 'small',
    },
  ];
  const dated = newestOf(rows.flatMap(({ last }) => last ?? []));
  return documentOf(pen, {
    title: w.title,
    subject: squad,
    blocks,
    dated,
    onePage: rows.length <= 24,
    file: [squad, input.test, metric.id, pen.dates.iso(dated)],
  });
}

/** Sure words that chance alone gives where nobody changed; never none. */
function byChance(changes: readonly ChangeFacts[], { numbers }: Pen): string {
  const sum = changes.reduce((total, one) => total + one.byChance, 0);
  return sum > 0 && sum < 0.05 ? `<${numbers.fixed(0.1, 1)}` : numbers.fixed(sum, 1);
}

const isYoung = ({ person, last }: SquadRowFacts, { dates, frame }: Pen): boolean =>
  last !== undefined && asMinor(ageOn(person.birthDate, last, dates), frame);

function figureOf({ metric }: SquadInput, valued: readonly Row[], title: string, { words, numbers }: Pen): Block {
  const w = words.squad;
  const values = valued.map(({ value }) => value?.value as number);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const figure = squadFigure(
    {
      lines: valued.map(({ person, change }, i) => ({
        name: person.name,
        value: values[i] as number,
        before: change && { value: change.value, low: change.band.low, high: change.band.high },
        sure: change !== undefined && isSure(change.word),
      })),
      unit: metric.unit,
      caption: `${w.figure(title)}. ${w.legend}`,
      alt: w.figureAlt(title, values.length, numbers.quantity(low, metric.unit), numbers.quantity(high, metric.unit)),
    },
    numbers,
  );
  return { kind: 'figure', figure };
}

function tableOf({ metric, scale }: SquadInput, rows: readonly Row[], title: string, pen: Pen): Table {
  const { words, numbers, dates, frame } = pen;
  const { head, ...w } = words.squad;
  const { unit } = metric;
  return {
    id: 'squad',
    title,
    columns: [
      { id: 'athlete', title: head.person, align: 'left' },
      { id: 'newest', title: w.headUnit(head.value, unitText(unit)), unit, align: 'right' },
      { id: 'trials', title: head.n, align: 'right' },
      { id: 'z', title: head.z, align: 'right' },
      { id: 'difference', title: head.difference, unit, align: 'right' },
      { id: 'word', title: head.word, align: 'left' },
      { id: 'tested', title: head.last, align: 'left' },
    ],
    rows: rows.map(({ person, value, z, change, last, young }) => {
      const unlike = (change?.unlike ?? []).map((one) => unlikeTitle(one, frame.language)).join(', ');
      return [
        text(`${person.name} (${person.code})`),
        numbers.cell(value?.value, unit),
        numbers.fixedCell(value?.n, 0),
        young || z === undefined ? none : { text: numbers.signed(z, 1), value: z },
        change === undefined ? none : { text: differenceText(change, unit, numbers), value: change.difference },
        change === undefined
          ? text(value === undefined ? '' : w.noWord, '')
          : text(
              `${wordMark[change.word]} ${wordText(change.word, metric.better, scale, words)}${unlike === '' ? '' : `. ${w.unlike}: ${unlike}`}`,
              change.word,
            ),
        last === undefined ? text(w.never, '') : text(dates.short(last), dates.iso(last)),
      ];
    }),
  };
}
