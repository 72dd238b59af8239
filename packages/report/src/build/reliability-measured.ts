import type { ReliabilityInput, SetupSpread } from '../input/reliability.ts';
import type { Block, Fact } from '../model/document.ts';
import { type Table, text } from '../model/table.ts';
import { unitText } from '../text/numbers.ts';
import { choiceText, fieldTitle } from '../words/trade/tests.ts';
import type { Pen } from './frame.ts';
import { rigCheckText } from './rig-check.ts';
import { methodWords } from './say.ts';

/** How the values of a study were measured: what a reviewer asks for. */
export function measuredBlocks({ measured }: ReliabilityInput, pen: Pen): Block[] {
  const w = pen.words.reliability;
  return [
    { kind: 'heading', text: w.measured },
    { kind: 'facts', items: factsOf(measured, pen) },
    { kind: 'heading', text: w.setup },
    ...(measured.setup.length === 0
      ? [{ kind: 'paragraph', text: w.noSetup } as const]
      : [{ kind: 'table', table: setupTable(measured.setup, pen) } as const]),
  ];
}

type Measured = ReliabilityInput['measured'];

function factsOf(measured: Measured, pen: Pen): Fact[] {
  const { words, numbers, dates, frame } = pen;
  const { facts: f, ...w } = words.reliability;
  const { common } = words;
  const listed = (said: readonly string[]) => [...new Set(said)].join('; ');
  const known = (value: string) => value || common.notKnown;
  const said = measured.methods.map((method) => methodWords(method, words, numbers, frame.language));
  const sessions = measured.protocols.reduce((sum, { n }) => sum + n, measured.withoutProtocol);
  return [
    ...(measured.from === undefined || measured.until === undefined
      ? []
      : [{ name: f.period, value: w.period(dates.day(measured.from), dates.day(measured.until), sessions) }]),
    {
      name: f.rates,
      value: known(
        listed(measured.sampleRates.map(({ value, n }) => w.effortsOf(common.rate(numbers.fixed(value, 0)), n))),
      ),
    },
    { name: f.filter, value: known(listed(said.map(({ filter }) => filter))) },
    { name: f.onset, value: known(listed(said.map(({ onset }) => onset))) },
    { name: f.rule, value: known(listed(said.map(({ rule }) => rule))) },
    {
      name: f.weight,
      value: known(
        listed(measured.weights.map(({ from, n }) => w.effortsOf(words.session.weightFrom[from] ?? from, n))),
      ),
    },
    {
      name: f.gravity,
      value: known(listed(measured.gravities.map((g) => `${numbers.fixed(g, 5)}\u00a0m/s²`))),
    },
    {
      name: f.cue,
      value: known(
        listed([
          ...measured.protocols.flatMap(({ cue, n }) => (cue === undefined ? [] : [w.sessionsOf(`“${cue}”`, n)])),
          ...measured.setup.flatMap(({ id, choices = [] }) =>
            id === 'cue_words' ? choices.map(({ value, n }) => w.sessionsOf(`“${value}”`, n)) : [],
          ),
        ]),
      ),
    },
    {
      name: f.rest,
      value: known(
        listed(
          measured.protocols.flatMap(({ restSeconds }) =>
            restSeconds === undefined ? [] : [`${numbers.fixed(restSeconds, 0)}\u00a0s`],
          ),
        ),
      ),
    },
    { name: f.rig, value: known(listed(measured.rigs)) },
    { name: f.rigCheck, value: rigCheckText(measured.rigChecks ?? [], pen) },
    {
      name: f.protocol,
      value: known(
        listed([
          ...measured.protocols.map(({ name, version, sha256, n }) =>
            w.sessionsOf(common.method(name, version, sha256), n),
          ),
          ...(measured.withoutProtocol > 0 ? [w.withoutProtocol(measured.withoutProtocol)] : []),
        ]),
      ),
    },
    {
      name: f.method,
      value: known(
        listed(
          measured.methods.map(({ name, version, sha256, n }) => w.effortsOf(common.method(name, version, sha256), n)),
        ),
      ),
    },
    { name: f.software, value: listed([...measured.applications, frame.software]) },
  ];
}

function setupTable(setup: readonly SetupSpread[], { words, numbers, frame }: Pen): Table {
  const w = words.reliability;
  const unitOf = (unit: string | undefined) =>
    unit === undefined ? '' : unit === 'deg' ? '°' : `\u00a0${unitText(unit)}`;
  const valuesOf = ({ range, choices, unit }: SetupSpread): string => {
    if (range !== undefined) {
      const digits = Number.isInteger(range.low) && Number.isInteger(range.high) ? 0 : 1;
      const [low, high] = [numbers.fixed(range.low, digits), numbers.fixed(range.high, digits)];
      return (low === high ? low : `${low} ${words.common.to} ${high}`) + unitOf(unit);
    }
    return (choices ?? []).map(({ value, n }) => `${choiceText(value, frame.language)} (${n})`).join(', ');
  };
  return {
    id: 'setup',
    title: w.setup,
    columns: [
      { id: 'field', title: w.setupHead.field, align: 'left' },
      { id: 'sessions', title: w.setupHead.n, align: 'right' },
      { id: 'values', title: w.setupHead.values, align: 'left' },
    ],
    rows: setup
      .filter(({ id }) => id !== 'cue_words')
      .map((field) => [
        text(fieldTitle(field, frame.language)),
        { text: String(field.n), value: field.n },
        text(valuesOf(field)),
      ]),
  };
}
