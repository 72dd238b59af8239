import { overTimeFigure } from '../figure/over-time.ts';
import type { AthleteInput, AthleteSessionFacts } from '../input/athlete.ts';
import type { ChangeFacts, ReportFrame } from '../input/common.ts';
import type { Block, Fact, ReportDocument } from '../model/document.ts';
import { type Cell, type Table, text } from '../model/table.ts';
import { unitText } from '../text/numbers.ts';
import { metricTitle } from '../words/trade/metrics.ts';
import { testTitle, unlikeTitle } from '../words/trade/tests.ts';
import { documentOf, newestOf, type Pen, penOf } from './frame.ts';
import { type Age, ageOn, asMinor, tellsMass } from './minors.ts';
import { differenceText, methodWords, scaleText, shortHash, wordMark, wordText } from './say.ts';

/** Sessions of the table; the figure shows every one. */
const shownSessions = 8;

type Valued = AthleteSessionFacts & { readonly value: number };

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
      : opening(input, change, newest, pen)),
    ...(valued.length === 0 ? [] : [figureBlock(input, change, valued, title, pen)]),
    {
      kind: 'columns',
      shares: [0.42, 0.58],
      columns: [
        [{ kind: 'heading', text: w.restsOn }, { kind: 'facts', items: factsOf(input, change, valued, pen) }],
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

function figureBlock(
  { best, metric }: AthleteInput,
  change: ChangeFacts | undefined,
  valued: readonly Valued[],
  title: string,
  { words, numbers, dates }: Pen,
): Block {
  const w = words.athlete;
  const [first, last] = [valued[0] as Valued, valued.at(-1) as Valued];
  const band = change && {
    value: change.value,
    low: change.band.low,
    high: change.band.high,
  };
  const keys = [...(band ? [w.band] : []), ...(valued.some(({ familiarisation }) => familiarisation) ? [w.first] : [])];
  const figure = overTimeFigure(
    {
      points: valued.map(({ id, at, value, familiarisation }) => ({
        at,
        value,
        first: familiarisation,
        best: id === best,
      })),
      unit: metric.unit,
      reference: band,
      newest: w.newest,
      best: w.best,
      caption: `${w.figure(title)}. ${keys.join('; ')}${keys.length > 0 ? '.' : ''}`,
      alt: w.figureAlt(
        title,
        valued.length,
        dates.day(first.at),
        dates.day(last.at),
        numbers.quantity(last.value, metric.unit),
        band ? w.figureBand(numbers.quantity(band.low, metric.unit), numbers.quantity(band.high, metric.unit)) : '',
      ),
    },
    { numbers, dates },
  );
  return { kind: 'figure', figure };
}

function factsOf(
  { metric, noise, scale, best }: AthleteInput,
  change: ChangeFacts | undefined,
  valued: readonly Valued[],
  { words, numbers, dates }: Pen,
): Fact[] {
  const f = words.athlete.facts;
  const { unit } = metric;
  const widest = change?.intervals.at(-1);
  const bestSession = valued.find(({ id }) => id === best);
  const [gain, loss] = metric.better === 'lower' ? [change?.less, change?.more] : [change?.more, change?.less];
  return [
    ...(widest
      ? [
          {
            name: f.interval,
            value: numbers.range(widest.low, widest.high, unit, words.common.to, true),
          },
        ]
      : []),
    ...(change && gain !== undefined && loss !== undefined
      ? [{ name: f.probabilities, value: [gain, change.within, loss].map(numbers.share).join(', ') }]
      : []),
    ...(noise.used
      ? [
          {
            name: f.error,
            value: scaleText(noise.used.value, scale, unit, numbers),
            note: f.errorOf(numbers.fixed(noise.used.df, 0)),
          },
        ]
      : []),
    {
      name: f.worthwhile,
      value: noise.worthwhile === undefined ? f.worthwhileNone : scaleText(noise.worthwhile, scale, unit, numbers),
    },
    ...(change
      ? [
          { name: f.confirmable, value: numbers.quantity(change.confirmable, unit), note: f.confirmableNote },
          { name: f.chance, value: f.chanceOf(numbers.fixed(100 * change.byChance, 1)) },
        ]
      : []),
    ...(bestSession
      ? [{ name: f.best, value: numbers.quantity(bestSession.value, unit), note: dates.short(bestSession.at) }]
      : []),
  ];
}

function sessionsColumn(input: AthleteInput, newest: string | undefined, pen: Pen): Block[] {
  const w = pen.words.athlete;
  const { sessions } = input;
  const all = sessions.toReversed();
  const left = all.length - Math.min(all.length, shownSessions);
  return [
    { kind: 'heading', text: w.sessions },
    {
      kind: 'table',
      table: sessionTable(input, all.slice(0, shownSessions), newest, pen, left === 0 ? undefined : w.more(left)),
    },
  ];
}

function sessionTable(
  { metric, best }: AthleteInput,
  sessions: readonly AthleteSessionFacts[],
  newest: string | undefined,
  { words, numbers, dates, frame }: Pen,
  note: string | undefined,
): Table {
  const { head, note: notes, ...w } = words.athlete;
  const unit = unitText(metric.unit);
  const beside = (one: AthleteSessionFacts): Cell => {
    const said = [
      ...(one.id === newest ? [notes.newest] : []),
      ...(one.id === best ? [notes.best] : []),
      ...(one.familiarisation ? [notes.first] : []),
      ...(one.unlike.length > 0
        ? [w.differs(one.unlike.map((title) => unlikeTitle(title, frame.language)).join(', '))]
        : []),
    ];
    return text(said.length === 0 ? notes.alike : said.join('; '));
  };
  const inUnit = (title: string) => (unit === '' ? title : `${title}, ${unit}`);
  return {
    id: 'sessions',
    title: w.sessions,
    columns: [
      { id: 'session', title: head.when, align: 'left' },
      { id: 'value', title: inUnit(head.value), unit: metric.unit, align: 'right' },
      { id: 'sd', title: head.sd, unit: metric.unit, align: 'right' },
      { id: 'trials', title: head.n, align: 'right' },
      { id: 'note', title: head.note, align: 'left' },
    ],
    rows: sessions.map((one) => {
      const own = one.unit === undefined || one.unit === metric.unit;
      return [
        text(dates.short(one.at)),
        one.value === undefined
          ? text(w.nothingCounts)
          : own
            ? numbers.cell(one.value, metric.unit)
            : text(numbers.quantity(one.value, one.unit ?? '')),
        own ? numbers.cell(one.sd, metric.unit) : text(''),
        text(w.ofMaximal(one.n, one.maximal)),
        beside(one),
      ];
    }),
    ...(note === undefined ? {} : { note }),
  };
}

function madeBlocks({ made }: AthleteInput, age: Age, { words, numbers, frame }: Pen): Block[] {
  const w = words.athlete;
  const small = (said: string): Block => ({ kind: 'paragraph', text: said, style: 'small' });
  const rates = made.sampleRates.map((rate) => words.common.rate(numbers.fixed(rate, 0)));
  const named = made.methods.map(({ name, version, sha256 }) =>
    words.common.method(name, version, shortHash(sha256)),
  );
  const by = made.protocol;
  return [
    { kind: 'heading', text: w.made },
    ...made.methods.slice(0, 1).map((method) => {
      const { rule, filter, onset } = methodWords(method, words, numbers, frame.language);
      return small(w.madeOf(rule, filter, onset));
    }),
    small(
      [
        ...named,
        ...(by === undefined ? [] : [`${by.name}, ${words.common.version(by.version)} (${shortHash(by.sha256)})`]),
        ...rates,
        words.common.noRigCheck,
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
