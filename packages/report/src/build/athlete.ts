import type { AthleteInput } from '../input/athlete.ts';
import type { ChangeFacts, ReportFrame } from '../input/common.ts';
import type { Block, ReportDocument } from '../model/document.ts';
import { metricTitle } from '../words/trade/metrics.ts';
import { testTitle, unlikeTitle } from '../words/trade/tests.ts';
import { factsOf } from './athlete-facts.ts';
import { figureBlock, type Valued } from './athlete-figure.ts';
import { sessionsColumn } from './athlete-sessions.ts';
import { documentOf, newestOf, type Pen, penOf } from './frame.ts';
import { type Age, ageOn, asMinor, tellsMass } from './minors.ts';
import { rigCheckText } from './rig-check.ts';
import { differenceText, methodWords, shortHash, wordMark, wordText } from './say.ts';
import { uncertaintyBlocks } from './uncertainty.ts';

/** A page that cannot be made: what it tells may not be told of this person. */
export type Withheld = { readonly withheld: 'mass-of-minor' };

/**
 * The page of one athlete: the word first, the number, how much noise there is, then what it rests on. Of somebody under 18 it holds no
 * mass and nothing for each kilogram.
 */
export function athleteReport(input: AthleteInput, frame: ReportFrame): ReportDocument | Withheld {
  const pen = penOf(frame);
  const { person, metric, sessions } = input;
  const dated = newestOf(sessions.map(({ at }) => at));
  const age = ageOn(person.birthDate, dated, pen.dates);
  if (asMinor(age, frame) && tellsMass(metric)) return { withheld: 'mass-of-minor' };
  const change = input.changes.find(({ reference }) => reference === input.against) ?? input.changes[0];
  const valued = sessions.filter((one): one is Valued => one.value !== undefined && one.unit === metric.unit);
  const newest = valued.at(-1);
  const w = pen.words.athlete;
  const title = metricTitle(metric.id, frame.language);
  const blocks: Block[] = [
    { kind: 'paragraph', text: `${testTitle(input.test, frame.language)}. ${title}.`, style: 'plain' },
    ...(newest === undefined
      ? [{ kind: 'paragraph', text: w.noValue, style: 'lead' } as const]
      : [...opening(input, change, newest, pen), ...uncertaintyBlocks(input.uncertainty, pen)]),
    ...(valued.length === 0 ? [] : [figureBlock(input, change, valued, title, pen)]),
    {
      kind: 'columns',
      shares: [0.42, 0.58],
      columns: [
        [
          { kind: 'heading', text: w.restsOn },
          { kind: 'facts', items: factsOf(input, change, valued, pen) },
        ],
        sessionsColumn(input, newest?.id, pen),
      ],
    },
    ...madeBlocks(input, age, pen),
  ];
  return documentOf(pen, {
    title: w.title,
    subject: `${person.name} (${person.code})`,
    blocks,
    dated,
    onePage: true,
    file: [person.code, input.test, metric.id, pen.dates.iso(dated)],
  });
}

function opening(input: AthleteInput, change: ChangeFacts | undefined, newest: Valued, pen: Pen): Block[] {
  const { words, numbers, dates, frame } = pen;
  const w = words.athlete;
  const { metric, scale } = input;
  const value = numbers.quantity(newest.value, metric.unit);
  if (change === undefined)
    return [
      { kind: 'statement', mark: '\u2022', word: w.noWordMark, value },
      { kind: 'paragraph', text: w.noWord, style: 'lead' },
    ];
  const behind = input.sessions.filter(({ id }) => change.sessions.includes(id));
  const dated = behind.length === 1 && behind[0] ? w.of(dates.day(behind[0].at)) : '';
  const said = wordText(change.alike, metric.better, scale, words);
  const titles = change.unlike.map((one) => unlikeTitle(one, frame.language)).join(', ');
  return [
    {
      kind: 'statement',
      mark: wordMark[change.word],
      word: wordText(change.word, metric.better, scale, words),
      value,
    },
    {
      kind: 'paragraph',
      text: w.sentence(differenceText(change, metric.unit, numbers), words.common.reference[change.reference] + dated),
      style: 'lead',
    },
    {
      kind: 'paragraph',
      text: `${w.noise(numbers.quantity(change.detectable, metric.unit))} ${w.why[change.alike]}`,
      style: 'plain',
    },
    ...(titles === '' ? [] : [{ kind: 'paragraph', text: w.unlike(titles), style: 'plain' } as const]),
    ...(change.word === change.alike
      ? []
      : [{ kind: 'paragraph', text: w.byStep(said.toLowerCase()), style: 'small' } as const]),
  ];
}

function madeBlocks({ made }: AthleteInput, age: Age, pen: Pen): Block[] {
  const { words, numbers, frame } = pen;
  const w = words.athlete;
  const small = (said: string): Block => ({ kind: 'paragraph', text: said, style: 'small' });
  const rates = made.sampleRates.map((rate) => words.common.rate(numbers.fixed(rate, 0)));
  const named = made.methods.map(({ name, version, sha256 }) => words.common.method(name, version, shortHash(sha256)));
  return [
    { kind: 'heading', text: w.made },
    ...made.methods.slice(0, 1).map((method) => {
      const { rule, filter, onset } = methodWords(method, words, numbers, frame.language);
      return small(w.madeOf(rule, filter, onset));
    }),
    small(
      [
        ...named,
        ...made.protocols.map((by) => `${by.name}, ${words.common.version(by.version)} (${shortHash(by.sha256)})`),
        ...rates,
        words.common.rigCheck(rigCheckText(made.rigChecks, pen)),
      ].join('; '),
    ),
    small(w.madeNoise),
    ...(age === 'minor'
      ? [small(w.minor)]
      : age === 'unknown' && frame.unknownAge === 'as-minor'
        ? [small(w.unknownAge)]
        : []),
  ];
}
