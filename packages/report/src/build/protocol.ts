import { isJumpProtocol, secondsText, valueText } from '@sthene/core';
import type { ReportFrame } from '../input/common.ts';
import type { ProtocolInput } from '../input/protocol.ts';
import type { Block, ReportDocument } from '../model/document.ts';
import { none, type Table, text } from '../model/table.ts';
import { cautionsOf, said } from '../words/trade/cautions.ts';
import { choiceText, fieldTitle, testTitle } from '../words/trade/tests.ts';
import { documentOf, type Pen, penOf } from './frame.ts';

/** Columns for athletes on one sheet. */
const athletes = [1, 2, 3, 4] as const;

/** A protocol as one page to hang beside the rig: cautions first, then the steps, the words of the cue, and lines to fill in. */
export function protocolReport({ document, sha256 }: ProtocolInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const w = pen.words.protocol;
  const rules = w.rules(document).map(tied);
  const blocks: Block[] = [
    { kind: 'paragraph', text: w.blanks.map((one) => `${one}: ${'_'.repeat(16)}`).join('   '), style: 'small' },
    {
      kind: 'columns',
      shares: [0.5, 0.5],
      columns: [
        [
          { kind: 'heading', text: w.first },
          { kind: 'list', items: cautionsOf(document, frame.language), ordered: false },
        ],
        [
          { kind: 'heading', text: w.how },
          { kind: 'list', items: stepsOf(document, pen).map(tied), ordered: true },
          {
            kind: 'notice',
            title: w.say(document.cue.count),
            items: [document.cue.words, isJumpProtocol(document) ? w.stopJump : w.stop],
          },
          ...(rules.length === 0 ? [] : [{ kind: 'list', items: rules, ordered: false } as const]),
        ],
      ],
    },
    { kind: 'heading', text: w.setup },
    { kind: 'table', table: setupTable(document, pen) },
    { kind: 'paragraph', text: w.hash(sha256), style: 'small' },
  ];
  return documentOf(pen, {
    title: w.title(testTitle(document.test.id, frame.language)),
    subject: w.subject(document.name, document.version),
    blocks,
    // A protocol has a version and no day of its own.
    dated: '2000-01-01T00:00:00.000Z',
    onePage: true,
    file: ['protocol', document.name, String(document.version)],
  });
}

/** Numbers stay with their units. */
const tied = (sentence: string): string => sentence.replace(/(\d) (?=(?:N|s|min|%|cm)\b|%)/g, '$1\u00a0');

function stepsOf(document: ProtocolInput['document'], { words, frame }: Pen): string[] {
  const { warmUp, maximal, pull, rest } = document;
  const w = words.protocol;
  return [
    ...warmUp.steps.map((step) => said(step, frame.language)),
    ...warmUp.efforts.map(({ share, band }) =>
      w.submaximal(valueText(share, 'share'), valueText(band, 'share'), secondsText(warmUp.rest)),
    ),
    ...(maximal.planned > 0
      ? [
          `${w.maximal(maximal.planned, isJumpProtocol(document) ? undefined : secondsText(pull.seconds), secondsText(rest.minimum))}. ${w.limits(maximal.minimum, maximal.maximum)}`,
        ]
      : []),
  ];
}

function setupTable({ setupFields, maximal }: ProtocolInput['document'], { words, frame }: Pen): Table {
  const w = words.protocol;
  const boxes = '\u2610 '.repeat(Math.max(1, maximal.maximum)).trim();
  const line = (name: string, cell: string) => [text(name), ...athletes.map(() => (cell === '' ? none : text(cell)))];
  return {
    id: 'setup',
    title: w.setup,
    columns: [
      { id: 'field', title: w.name, align: 'left' },
      ...athletes.map((n) => ({ id: `athlete_${n}`, title: '_'.repeat(12), align: 'left' as const })),
    ],
    rows: [
      line(`${w.weight} (N)`, ''),
      ...setupFields.map((field) => {
        const unit = field.unit === undefined ? '' : ` (${field.unit === 'deg' ? '°' : field.unit})`;
        const choices = (field.choices ?? []).map((one) => choiceText(one, frame.language)).join(' / ');
        const cell = field.kind === 'yes-no' ? w.yesNo : field.kind === 'choice' ? choices : '';
        return line(`${fieldTitle(field, frame.language)}${unit}${field.required ? ' *' : ''}`, cell);
      }),
      line(w.efforts, boxes),
    ],
    note: w.needed,
  };
}
