import {
  checkFacts,
  checkFactsOf,
  isJumpMethod,
  jumpOnsetRules,
  metricFacts,
  onsetRegistry,
  protocolRegistry,
} from '@sthene/core';
import type { ReportFrame } from '../input/common.ts';
import type { MethodsInput } from '../input/methods.ts';
import type { Block, ReportDocument } from '../model/document.ts';
import { type Table, text } from '../model/table.ts';
import { unitText } from '../text/numbers.ts';
import { checkTitle } from '../words/trade/checks.ts';
import { metricTitle } from '../words/trade/metrics.ts';
import { onsetTitle } from '../words/trade/onset.ts';
import { testTitle } from '../words/trade/tests.ts';
import { documentOf, type Pen, penOf } from './frame.ts';
import { isFromMemory, References } from './references.ts';

/** What a paper says of how values were measured, with references, from the documents of method and protocol alone. */
export function methodsReport(input: MethodsInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const w = pen.words.methods;
  const references = new References();
  const { method, protocol } = input;
  const test = protocolRegistry.get(protocol.document.test.id);
  const about = {
    test: testTitle(protocol.document.test.id, frame.language),
    protocol: protocol.document,
    cited: references.cite(...(test?.sources ?? [])),
  };
  const maximal = protocol.document.maximal.planned > 0;
  const onset = onsetBlocks(input, references, pen);
  const values = valueTable(input, references, pen);
  const checks = checkTable(input, references, pen);
  const blocks: Block[] = [
    { kind: 'paragraph', text: w.readIt, style: 'small' },
    { kind: 'heading', text: w.heading },
    {
      kind: 'paragraph',
      text: [w.test(about), w.warmUp(about), w.efforts(about), ...(maximal ? [w.cue(about), w.extra(about)] : [])].join(
        ' ',
      ),
    },
    { kind: 'heading', text: w.analysis },
    { kind: 'paragraph', text: analysisText(input, pen) },
    ...onset,
    { kind: 'paragraph', text: w.letters, style: 'small' },
    { kind: 'heading', text: w.values },
    { kind: 'table', table: values },
    { kind: 'heading', text: w.checkTable },
    { kind: 'table', table: checks },
    ...referenceBlocks(references, pen),
  ];
  return documentOf(pen, {
    title: w.title,
    subject: `${method.name}, ${pen.words.common.version(method.version)}`,
    blocks,
    // Documents of method and protocol have versions and no day of their own.
    dated: '2000-01-01T00:00:00.000Z',
    onePage: false,
    file: ['methods', method.name, String(method.version), protocol.document.name],
  });
}

function analysisText({ method, protocol, gravity }: MethodsInput, { words, numbers, frame }: Pen): string {
  const w = words.methods;
  const { filter, set } = method.document;
  const window = windowOf(method.document);
  const checks = checksOf({ method, protocol });
  const weighed = protocolRegistry.get(protocol.document.test.id)?.load !== 'none';
  return [
    w.software(frame.software, method.name, method.version, method.sha256),
    filter === undefined ? w.raw : w.filtered(numbers.short(filter.cutoff)),
    weighed
      ? w.weighing(numbers.short(window.baseline), numbers.short(window.search), numbers.short(window.clearance))
      : w.noWeight(numbers.short(window.baseline), numbers.short(window.search)),
    w.value(words.common.rule[set.summary]),
    w.checks(Object.keys(checks).length),
    w.gravity(numbers.fixed(gravity, 5)),
  ].join(' ');
}

/** The quiet second of either kind of method, s. */
const windowOf = (document: MethodsInput['method']['document']) =>
  isJumpMethod(document)
    ? { baseline: document.weighing.window, search: document.weighing.search, clearance: document.weighing.clearance }
    : document.window;

/** The checks of a method that look at the test. */
function checksOf({ method, protocol }: Pick<MethodsInput, 'method' | 'protocol'>) {
  const own = new Set(checkFactsOf(protocol.document.test.id).map(({ id }) => id));
  return Object.fromEntries(Object.entries(method.document.checks).filter(([id]) => own.has(id)));
}

function onsetBlocks({ method }: MethodsInput, references: References, { words, frame }: Pen): Block[] {
  const w = words.methods;
  const { rule } = method.document.onset;
  const definition = onsetRegistry.get(rule) ?? jumpOnsetRules.get(rule);
  const cited = references.cite(definition?.source ?? '');
  return [
    {
      kind: 'paragraph',
      text: `${w.onset(onsetTitle(rule, frame.language), cited)}${cited === '' ? ` ${w.onsetOwn}` : ''}`,
    },
    ...(definition === undefined
      ? []
      : [{ kind: 'paragraph', text: definition.definition, style: 'small', language: 'en' } as const]),
  ];
}

function valueTable({ metrics }: MethodsInput, references: References, { words, frame }: Pen): Table {
  const w = words.methods;
  return {
    id: 'values',
    title: w.values,
    columns: [
      { id: 'value', title: w.valueHead.value, align: 'left' },
      { id: 'unit', title: w.valueHead.unit, align: 'left' },
      { id: 'definition', title: w.valueHead.definition, align: 'left' },
      { id: 'source', title: w.valueHead.source, align: 'left' },
    ],
    rows: metrics.map(({ id, unit, formula, source }) => [
      text(metricTitle(id, frame.language)),
      text(unitText(unit) || '1'),
      text(formula),
      text(references.cite(source).trim() || w.ownDefinition),
    ]),
  };
}

function checkTable(input: MethodsInput, references: References, { words, numbers, frame }: Pen): Table {
  const w = words.methods;
  const limits = (id: string, all: Readonly<Record<string, number>>) =>
    Object.entries(all)
      .map(([name, value]) => {
        const own = name === 'warn' || name === 'fail';
        const said = numbers.short(value);
        const unit = own ? unitText(checkFacts.get(id)?.unit ?? '') : '';
        return `${w.limit[name] ?? name}: ${said}${unit === '' ? '' : `\u00a0${unit}`}`;
      })
      .join('; ');
  return {
    id: 'checks',
    title: w.checkTable,
    columns: [
      { id: 'check', title: w.checkHead.check, align: 'left' },
      { id: 'limits', title: w.checkHead.limits, align: 'left' },
      { id: 'source', title: w.checkHead.source, align: 'left' },
    ],
    rows: Object.entries(checksOf(input)).map(([id, choice]) => [
      text(checkTitle(id, frame.language)),
      text(limits(id, choice.limits) || w.noLimits),
      text(references.cite(checkFacts.get(id)?.source ?? '').trim() || w.ownDefinition),
    ]),
  };
}

function referenceBlocks({ list }: References, { words }: Pen): Block[] {
  const w = words.methods;
  const sources = [...metricFacts.all, ...checkFacts.all, ...onsetRegistry.all, ...jumpOnsetRules.all]
    .map(({ source }) => source)
    .concat(protocolRegistry.all.flatMap((test) => test.sources));
  const doubtful = list.flatMap((one, i) =>
    sources.some((source) => isFromMemory(source, one)) ? [`[${i + 1}]`] : [],
  );
  return [
    { kind: 'heading', text: w.references },
    { kind: 'list', items: list, ordered: true, language: 'en' },
    ...(doubtful.length === 0
      ? []
      : [{ kind: 'paragraph', text: `${w.check} ${doubtful.join(', ')}`, style: 'small' } as const]),
  ];
}
