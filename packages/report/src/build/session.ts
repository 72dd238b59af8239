import type { ReportFrame } from '../input/common.ts';
import type { SessionInput, TrialFacts } from '../input/session.ts';
import type { Block, Fact, ReportDocument } from '../model/document.ts';
import { type Table, text } from '../model/table.ts';
import { unitText } from '../text/numbers.ts';
import { checkFinding } from '../words/trade/checks.ts';
import { metricTitle } from '../words/trade/metrics.ts';
import { choiceText, fieldTitle, testTitle } from '../words/trade/tests.ts';
import { documentOf, newestOf, type Pen, penOf } from './frame.ts';
import { ageOn, asMinor } from './minors.ts';
import { rigCheckText } from './rig-check.ts';
import { methodWords, shortHash } from './say.ts';
import { uncertaintyBlocks } from './uncertainty.ts';

/** The log of a session: every trial with its verdict, what the checks found, what people decided, and the setup. */
export function sessionReport(input: SessionInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const { words, numbers, dates } = pen;
  const w = words.session;
  const { summary, startedAt, person, trials } = input;
  const maximal = trials.filter(({ effort }) => effort === 'maximal');
  const counting = maximal.filter(({ state }) => state === 'counts' || state === 'overruled');
  const { headline } = input;
  const said =
    summary === undefined
      ? headline === undefined
        ? w.noSummary
        : w.headline(
            metricTitle(headline.metric, frame.language),
            numbers.quantity(headline.value, headline.unit),
            headline.n,
          )
      : w.summary(
          numbers.quantity(summary.value, summary.unit),
          summary.n,
          summary.sd === undefined ? '' : numbers.quantity(summary.sd, summary.unit),
        );
  const setup = setupFacts(input, pen);
  const files = trials.filter(({ recording }) => recording !== undefined);
  const blocks: Block[] = [
    { kind: 'paragraph', text: `${testTitle(input.test, frame.language)}.` },
    { kind: 'paragraph', text: `${said} ${w.counts(counting.length, maximal.length)}`, style: 'lead' },
    ...uncertaintyBlocks(input.uncertainty, pen),
    { kind: 'heading', text: w.trials },
    { kind: 'table', table: trialTable(input, pen) },
    {
      kind: 'columns',
      shares: [0.5, 0.5],
      columns: [
        [
          { kind: 'heading', text: w.setup },
          setup.length === 0 ? { kind: 'paragraph', text: w.noSetup } : { kind: 'facts', items: setup },
        ],
        [
          { kind: 'heading', text: w.how },
          { kind: 'facts', items: howFacts(input, pen) },
        ],
      ],
    },
    ...(files.length === 0
      ? []
      : [{ kind: 'heading', text: w.files } as const, { kind: 'table', table: fileTable(files, pen) } as const]),
    { kind: 'paragraph', text: words.common.zone(frame.zone), style: 'small' },
  ];
  return documentOf(pen, {
    title: w.title,
    subject: w.subject(`${person.name} (${person.code})`, dates.moment(startedAt)),
    blocks,
    dated: newestOf([startedAt, ...trials.flatMap(({ decisions }) => decisions.map(({ at }) => at))]),
    onePage: false,
    file: [person.code, input.test, 'session', dates.iso(startedAt)],
  });
}

function trialTable({ trials, summary }: SessionInput, { words, numbers, dates, frame }: Pen): Table {
  const { head, ...w } = words.session;
  const unit = summary?.unit ?? trials[0]?.unit ?? 'N';
  const ranked = trials.find(({ headline }) => headline !== undefined)?.headline;
  const judged = ({ value, limit, unit: its }: TrialFacts['checks'][number]) =>
    value === undefined || limit === undefined
      ? ''
      : `: ${w.judged(numbers.quantity(value, its), numbers.quantity(limit, its))}`;
  const found = ({ checks, reason }: TrialFacts) => {
    const said = checks.map((check) => {
      const finding = checkFinding(check.id, frame.language);
      return (check.status === 'fail' ? w.failed(finding) : w.warned(finding)) + judged(check);
    });
    if (said.length > 0) return said.join('\n');
    return reason === undefined ? w.clean : `${w.notMeasured} [${reason}]`;
  };
  return {
    id: 'trials',
    title: w.trials,
    columns: [
      { id: 'trial', title: head.order, align: 'left' },
      { id: 'effort', title: head.effort, align: 'left' },
      ...(ranked === undefined
        ? ([
            { id: 'peak_force', title: `${head.peak}, ${unitText(unit)}`, unit, align: 'right' },
            { id: 'rfd_0_200', title: `${head.rate}, ${unitText(unit)}/s`, unit: `${unit}/s`, align: 'right' },
          ] as const)
        : ([
            {
              id: ranked.metric,
              title: `${metricTitle(ranked.metric, frame.language)}, ${unitText(ranked.unit)}`,
              unit: ranked.unit,
              align: 'right',
            },
          ] as const)),
      { id: 'state', title: head.state, align: 'left' },
      { id: 'checks', title: head.checks, align: 'left' },
      { id: 'decisions', title: head.decisions, align: 'left' },
    ],
    rows: trials.map((trial) => [
      { text: String(trial.order), value: trial.order },
      text(words.common.effort[trial.effort], trial.effort),
      ...(ranked === undefined
        ? [numbers.cell(trial.peakForce, unit), numbers.cell(trial.rate200, `${unit}/s`)]
        : [numbers.cell(trial.headline?.value, ranked.unit)]),
      text(words.common.state[trial.state], trial.state),
      text(found(trial)),
      text(
        trial.decisions
          .map(({ kind, by, at, reason }) => w.decided(w.decision[kind], by, dates.moment(at), reason))
          .join('\n'),
      ),
    ]),
  };
}

function setupFacts({ setup, fields }: SessionInput, { words, numbers, frame }: Pen): Fact[] {
  const known = new Map(fields.map((field) => [field.id, field]));
  return Object.entries(setup).flatMap(([id, value]) => {
    const field = known.get(id);
    if (value === '') return [];
    const name = field === undefined ? id.replaceAll('_', ' ') : fieldTitle(field, frame.language);
    if (typeof value === 'boolean') return [{ name, value: value ? words.common.yes : words.common.no }];
    if (typeof value === 'number')
      return [{ name, value: numbers.fixed(value, Number.isInteger(value) ? 0 : 1) + unitOf(field?.unit) }];
    return [{ name, value: field?.kind === 'choice' ? choiceText(value, frame.language) : value }];
  });
}

const unitOf = (unit: string | undefined): string =>
  unit === undefined ? '' : unit === 'deg' ? '°' : `\u00a0${unitText(unit)}`;

function howFacts(input: SessionInput, pen: Pen): Fact[] {
  const { words, numbers, frame } = pen;
  const f = words.session.facts;
  const { protocol, methods, bodyWeight, trials } = input;
  const rates = [...new Set(trials.flatMap(({ recording }) => recording?.sampleRate ?? []))];
  return [
    { name: f.rig, value: input.rig ?? words.session.noRig },
    { name: f.rigCheck, value: rigCheckText([input.rigCheck], pen) },
    ...(protocol === undefined
      ? []
      : [
          {
            name: f.protocol,
            value: `${protocol.name}, ${words.common.version(protocol.version)}`,
            note: shortHash(protocol.sha256),
          },
        ]),
    ...(protocol?.document === undefined ? [] : [{ name: f.cue, value: protocol.document.cue.words }]),
    ...methods.flatMap((method) => {
      const { filter, onset } = methodWords(method, words, numbers, frame.language);
      return [
        {
          name: f.method,
          value: `${method.name}, ${words.common.version(method.version)}`,
          note: shortHash(method.sha256),
        },
        { name: f.filter, value: filter },
        { name: f.onset, value: onset },
      ];
    }),
    ...(rates.length === 0
      ? []
      : [{ name: f.rates, value: rates.map((rate) => words.common.rate(numbers.fixed(rate, 0))).join('; ') }]),
    { name: f.gravity, value: `${numbers.fixed(input.gravity, 5)}\u00a0m/s²` },
    ...weightFact(input, bodyWeight, pen),
    ...(input.notes === '' ? [] : [{ name: f.notes, value: input.notes }]),
  ];
}

/** The weight of somebody under 18 is not printed. */
function weightFact(
  { person, startedAt }: SessionInput,
  weight: SessionInput['bodyWeight'],
  { words, numbers, dates, frame }: Pen,
): Fact[] {
  const w = words.session;
  if (weight === undefined) return [];
  if (asMinor(ageOn(person.birthDate, startedAt, dates), frame))
    return [{ name: w.facts.weight, value: w.weightWithheld }];
  const from = w.weightFrom[weight.from] ?? weight.from;
  return [{ name: w.facts.weight, value: numbers.quantity(weight.value, 'N'), note: from }];
}

function fileTable(trials: readonly TrialFacts[], { words, numbers }: Pen): Table {
  const head = words.session.fileHead;
  return {
    id: 'recordings',
    title: words.session.files,
    columns: [
      { id: 'trial', title: head.order, align: 'left' },
      { id: 'file', title: head.name, align: 'left' },
      { id: 'sample_rate', title: head.rate, unit: 'Hz', align: 'right' },
      { id: 'sha256', title: head.hash, align: 'left' },
    ],
    rows: trials.map(({ order, recording }) => [
      { text: String(order), value: order },
      text(recording?.name ?? ''),
      numbers.fixedCell(recording?.sampleRate, 0),
      text(recording?.sha256 ?? ''),
    ]),
  };
}
