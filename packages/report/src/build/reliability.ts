import type { ReportFrame } from '../input/common.ts';
import type { ReliabilityInput } from '../input/reliability.ts';
import type { Block, ReportDocument } from '../model/document.ts';
import { type Table, text } from '../model/table.ts';
import type { FlowStep } from '../words/en/reliability.ts';
import { checkFinding } from '../words/trade/checks.ts';
import { metricTitle } from '../words/trade/metrics.ts';
import { testTitle } from '../words/trade/tests.ts';
import { documentOf, newestOf, type Pen, penOf } from './frame.ts';
import { measuredBlocks } from './reliability-measured.ts';
import { stepTable, studyTable } from './reliability-study.ts';
import { scaleText } from './say.ts';

/** How good a test is in this lab: the errors, what became of every effort, and how it was measured. No names of athletes. */
export function reliabilityReport(input: ReliabilityInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const w = pen.words.reliability;
  const { metric, study, measured } = input;
  const title = metricTitle(metric.id, frame.language);
  const squad = input.squad ?? pen.words.squad.everybody;
  const dated = newestOf(measured.until === undefined ? [] : [measured.until]);
  const blocks: Block[] = [
    { kind: 'paragraph', text: `${testTitle(input.test, frame.language)}. ${title}.` },
    ...(study === undefined
      ? [{ kind: 'paragraph', text: w.none, style: 'lead' } as const]
      : studyBlocks(input, study, title, pen)),
    { kind: 'heading', text: w.flow },
    { kind: 'paragraph', text: w.flowLead },
    { kind: 'table', table: flowTable(input, pen) },
    { kind: 'heading', text: w.checks },
    ...(input.flow.checks.length === 0
      ? [{ kind: 'paragraph', text: w.noChecks } as const]
      : [{ kind: 'table', table: checkTable(input, pen) } as const]),
    ...measuredBlocks(input, pen),
  ];
  return documentOf(pen, {
    title: w.title,
    subject: w.subject(title, squad),
    blocks,
    dated,
    onePage: false,
    file: ['reliability', input.test, metric.id, squad, pen.dates.iso(dated)],
  });
}

function studyBlocks(
  input: ReliabilityInput,
  study: NonNullable<ReliabilityInput['study']>,
  title: string,
  pen: Pen,
): Block[] {
  const w = pen.words.reliability;
  const say = (value: number) => scaleText(value, study.scale, input.metric.unit, pen.numbers);
  const { error } = study;
  return [
    {
      kind: 'paragraph',
      text: w.lead(say(error.value), say(error.interval.low), say(error.interval.high), study.complete, input.sessions),
      style: 'lead',
    },
    ...(study.small ? [{ kind: 'paragraph', text: w.small } as const] : []),
    { kind: 'heading', text: w.study },
    { kind: 'table', table: studyTable(study, input, title, pen) },
    ...(study.scale === 'log' ? [{ kind: 'paragraph', text: w.logs, style: 'small' } as const] : []),
    { kind: 'paragraph', text: w.caution, style: 'small' },
    { kind: 'heading', text: w.steps },
    { kind: 'table', table: stepTable(study, input, pen) },
  ];
}

/** Steps that part the one before them. */
const parts: ReadonlySet<FlowStep> = new Set([
  'submaximal',
  'counts',
  'lookAgain',
  'repeat',
  'notAnalysed',
  'overruled',
  'excluded',
  'byHand',
  'familiarisation',
  'older',
  'used',
]);

function flowTable({ flow }: ReliabilityInput, { words }: Pen): Table {
  const w = words.reliability;
  const names = (who: readonly { by: string; n: number }[]) => who.map(({ by, n }) => w.by(by, n)).join(', ');
  const sum = (who: readonly { n: number }[]) => who.reduce((total, { n }) => total + n, 0);
  const steps: readonly (readonly [FlowStep, number, string?])[] = [
    ['efforts', flow.efforts, w.usedNote(flow.sessions, flow.people)],
    ['submaximal', flow.efforts - flow.maximal],
    ['maximal', flow.maximal],
    ['counts', flow.verdicts.counts],
    ['lookAgain', flow.verdicts.lookAgain],
    ['repeat', flow.verdicts.repeat],
    ['notAnalysed', flow.verdicts.notAnalysed],
    ['overruled', sum(flow.overruled), names(flow.overruled)],
    ['excluded', sum(flow.excluded), names(flow.excluded)],
    ['byHand', sum(flow.onsetByHand), names(flow.onsetByHand)],
    ['counting', flow.counting],
    ['familiarisation', flow.familiarisation],
    ['older', flow.older],
    ['used', flow.used, w.usedSessions(flow.usedSessions)],
  ];
  return {
    id: 'flow',
    title: w.flow,
    columns: [
      { id: 'step', title: w.flowHead.step, align: 'left' },
      { id: 'efforts', title: w.flowHead.n, align: 'right' },
      { id: 'note', title: w.flowHead.note, align: 'left' },
    ],
    rows: steps.map(([step, n, more = '']) => {
      const [name, note] = w.flowSteps[step];
      return [
        text(parts.has(step) ? `\u2003${name}` : name, step),
        { text: String(n), value: n },
        text([note, more].filter(Boolean).join('; ')),
      ];
    }),
  };
}

function checkTable({ flow }: ReliabilityInput, { words, frame }: Pen): Table {
  const w = words.reliability;
  const count = (n: number) => ({ text: String(n), value: n });
  return {
    id: 'checks',
    title: w.checks,
    columns: [
      { id: 'check', title: w.checkHead.check, align: 'left' },
      { id: 'repeat', title: w.checkHead.failed, align: 'right' },
      { id: 'look_again', title: w.checkHead.warned, align: 'right' },
    ],
    rows: flow.checks.map(({ id, failed, warned }) => [
      text(checkFinding(id, frame.language), id),
      count(failed),
      count(warned),
    ]),
    note: w.checksNote,
  };
}
